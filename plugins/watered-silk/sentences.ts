/** What a designer reads, and sets. */
export const SENTENCES = [
  'Water marks {figureWidth} wide and {figureLength} long, {bands} bands in each, lie over fine ribs, {ribs}.',
  'Bands that run right through from top to bottom lie {lines}.',
  'Their quiver is {wander}, their raggedness {feather} and their shine {pressing} of the usual.',
  'Light comes from {light}.',
];
