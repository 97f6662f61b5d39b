/** What a designer reads, and sets. */
export const SENTENCES = [
  'Thread order: {warp} in the warp and {weft} in the weft, read {turned: there and back | in one direction}.',
  'Yarns A, B and so on are {yarns}.',
  'They are set at {sett} and woven over and under by {weave}.',
  'Each yarn fills {cover} of its room, and thickens and thins by {unevenness}.',
  'They colour the artwork at {dye} strength, in light from {light}.',
];
