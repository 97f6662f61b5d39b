/** What a designer reads, and sets. */
export const SENTENCES = [
  'Salt, {salt}, with grains up to {grain}, falls on a wash that is {wetness} wet.',
  'The grains are {mixture} mixed in size and lie {drifts} in drifts.',
  'The blooms are {feathering} feathered and leave {staining} of the colour behind.',
  'Pushed paint gathers round them at {fringe} strength, and colours run {run} into each other.',
];
