/** What a designer reads, and sets. */
export const SENTENCES = [
  'Chips of stone, the larger ones {chips} long, cover {cover} of {bed: a bed of cement | the artwork}.',
  'They are {mix} mixed in size and {wear} worn round.',
  'The chips are {first}, {second}, {third} and {fourth}; cement is {bedColour}.',
  'Between the chips lies grit of {gritSize}, {grit} as thick as it can lie.',
];
