/** What a designer reads, and sets. */
export const SENTENCES = [
  'A {weave} weave, its threads {ends} in the warp and {picks} in the weft.',
  'The yarns weigh {warpCount} in the warp and {weftCount} in the weft, vary in thickness by {unevenness} and have slubs at {slubs}.',
  'The cloth is {wear} worn, and its open gaps are {gap} dark.',
  'The warp is {warpColour} and the weft {weftColour}; white takes the colours of the artwork.',
  'Between cloth dyed through (0 %) and a print on top of the threads (100 %), the artwork stands at {inked}.',
  'Light comes from {light}.',
];
