// In what order the reference stands: by what a writer of effects is about to do.

/**
 * Files of `src/` without their ending, or how several of them begin; the longest that fits counts. Within a topic
 * things stand in the order of the files and of the sources; those named `first` before them.
 */
export const TOPICS = [
  {
    title: 'The contract',
    says: 'What an effect is, what it is handed and what it gives back.',
    files: ['effect/effect', 'effect/layer'],
    first: ['defineEffect', 'Effect', 'Setting', 'Report', 'Band', 'TextureLayer', 'PLANE_CHANNELS'],
  },
  {
    title: 'Parameters',
    says: 'What a user can set.',
    files: ['effect/parameter', 'effect/values'],
    first: ['numeric', 'choice', 'colour', 'toggle', 'numbers', 'palette', 'text'],
  },
  {
    title: 'Chance',
    says: 'One stream per purpose, or a number from two whole numbers.',
    files: ['field/random', 'field/hash'],
  },
  {
    title: 'Points',
    says: 'Strewn without clumps, found again in every copy of the repeat.',
    files: ['field/poisson', 'field/points'],
  },
  {
    title: 'Noise',
    says: 'Closes over any layout; along a direction, as fine as wanted.',
    files: ['field/fractal', 'field/noise', 'field/footprint', 'field/torus', 'field/share'],
  },
  { title: 'Cells', says: 'Lattices of cells with a number each.', files: ['field/cell'] },
  {
    title: 'Rows and bands',
    says: 'Painting row by row, with the same bits in every copy and every cut.',
    files: ['effect/home', 'effect/strip', 'effect/run', 'field/noise-row'],
    first: ['homeParts', 'HomePart'],
  },
  {
    title: 'Fields',
    says: 'Drawn once on a coarse grid fixed in mm, looked up at any density; filters.',
    files: ['field/periodic', 'field/gaussian', 'field/fourier', 'effect/mean-load'],
  },
  {
    title: 'Solvers',
    says: 'Fronts, diffusion, currents and films that close over any layout.',
    files: ['field/march', 'field/diffuse', 'field/stencil', 'field/line', 'field/advect', 'field/thin-film'],
  },
  { title: 'More fields', says: 'What else makes numbers that repeat.', files: ['field/'] },
  { title: 'Colours', says: 'sRGB, linear light, differences and blending.', files: ['colour/'] },
  {
    title: 'Scans and joins',
    says: 'The slow light of a scan, and how a picture is joined to its own copies.',
    files: ['join/'],
    first: ['slowLight', 'divideLight'],
  },
  {
    title: 'The repeat',
    says: 'Boxes, lattices and copies of a place.',
    files: ['repeat/repeat', 'repeat/lattice', 'repeat/layout'],
  },
  {
    title: 'Sizes and pixels',
    says: 'mm, dpi and grids: for programs more than for effects.',
    files: ['repeat/'],
  },
  { title: 'Failing well', says: 'How a mistake of the user is told.', files: ['fault'] },
  { title: 'More of the contract', says: 'What else belongs to effects.', files: ['effect/'] },
];

/**
 * Where an export stands.
 *
 * @param item Its `file` below `src/`, its `name` and its `position` in the file.
 * @returns The topic, and what to sort by within it.
 */
export function placeOf({ file, name, position }) {
  const fit = (start) => (file.startsWith(start) ? start.length : 0);
  const fitOf = (topic) => Math.max(...topic.files.map(fit));
  const topic = TOPICS.reduce((best, other) => (fitOf(other) > fitOf(best) ? other : best));
  const early = topic.first?.indexOf(name) ?? -1;
  const turn = topic.files.findIndex((start) => fit(start) === fitOf(topic));
  return { topic, order: early < 0 ? [1, turn, file, position] : [0, early, file, position] };
}
