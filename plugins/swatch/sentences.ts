/** What a designer reads, and sets. */
export const SENTENCES = [
  'From the swatch {picture}, {scale} of its own size, laid {layAs: as a wash that lies thick and thin | in its own colours | as light and shade}, {strength} of it.',
  'It is grown {way: as its structure asks | by blending, for fine and even textures | by joining pieces, for figured ones}.',
  'Of the picture the part at {part} (from the left, from the top, width and height) is taken, and {evenLight} of its uneven light taken out.',
  'Bare paper is {paper: the lightest that is found | the colour that is given}, {paperColour}.',
  'Pieces are {turned: turned by quarter turns | left as they stand} and {mirrored: turned over | never turned over}.',
];
