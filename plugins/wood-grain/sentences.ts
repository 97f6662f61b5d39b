/** What a designer reads, and sets. */
export const SENTENCES = [
  '{construction: Boards | Book-matched leaves | A single veneer | A painted imitation} of {species}, {cut: plain-sawn | rift-sawn | quarter-sawn}, with the grain {direction: upright | across}.',
  'A piece is {boardWidth} wide and {boardLength} long, with joints of {joint}.',
  'Growth rings are {ringWidth} wide, with knots at {knots}.',
  'The grain is {figure} as lively and {contrast} as strong as usual.',
  'What shows is {body: the whole colour of the wood | only its darker grain | only its light and shade}.',
  'Its colours are {ownColours: your own | those of the wood}; your own would be {light} and {dark}.',
];
