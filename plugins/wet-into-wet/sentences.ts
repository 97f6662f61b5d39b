/** What a designer reads, and sets. */
export const SENTENCES = [
  'The first wash is {wetness} wet, lies {clouds} in clouds, and {floods} of it is flooded with clean water.',
  'Drops of water, {blooms}, open into blooms some {size} wide, with spatter at {spatter}.',
  'Their back-runs are {backrun} strong, and their edges crinkle {crinkle} as much as usual.',
  'The sheet is tilted {tilt} towards {downhill} and dries in {drying}.',
  "Touches of paint, {charges}, are {second} at {secondAmount} strength; white takes the artwork's own colour.",
];
