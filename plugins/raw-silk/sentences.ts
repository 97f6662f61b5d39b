/** What a designer reads, and sets. */
export const SENTENCES = [
  'Fine ribs of weft, {picks}, run across a warp of {ends}.',
  'The ribs thicken and thin by {unevenness}.',
  'Slubs, {slubs}, are {slubLength} long and up to {slubThickness} as thick as their yarn.',
  'The ribs are {weftColour}, and the warp glows {warpColour} between them, at {shot} strength.',
  'The ribs gleam {lustre} as brightly as usual, in light from {light}.',
];
