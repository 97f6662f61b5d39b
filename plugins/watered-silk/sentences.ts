/** What a designer reads, and sets. */
export const SENTENCES = [
  'Water marks {figureWidth} wide and {figureLength} long, {bands} bands in each, lie over fine ribs, {ribs}.',
  'Bands that run right through, top to bottom, number {lines}.',
  'Quiver is {wander}, raggedness {feather} and shine {pressing} of the usual.',
  'Light comes from {light}.',
];
