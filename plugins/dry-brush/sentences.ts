/** What a designer reads, and sets. */
export const SENTENCES = [
  'A brush {width} wide makes strokes {length} long, most of them turned {direction} from level.',
  'They stray by up to {straying} and curve by {bend}; {crossing} of them are laid across the rest.',
  'The brush is {dryness} dry, and its bristles leave tracks {bristle} wide.',
  'Strokes overlap {layers}; where no bristle touched, {underpaint} of the paint is left.',
];
