/** What a designer reads, and sets. */
export const SENTENCES = [
  'The hollows of the paper lie {tooth} apart and are {depth} as deep as usual.',
  'The sheet is {pressed} of the way from rough to hot-pressed and smooth.',
  'It has laid lines at {laid}; where it has any, chain lines stand {chain} apart.',
  'Paint has gathered in the hollows at {granulation} strength.',
];
