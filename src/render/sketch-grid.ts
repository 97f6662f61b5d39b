import { fitGrid, type Grid } from '../repeat/grid.ts';
import { MM_PER_INCH } from '../repeat/length.ts';

/** Pixels per mm that a sketch has at most: a screen shows no more, and threads of a weave are still seen. */
export const SKETCH_DENSITY = 100 / MM_PER_INCH;

/** A grid of the same repeat, in mm, that has at most so many pixels per mm; a coarser one stays as it is. */
export function gridAtMost(grid: Grid, pixelsPerMm: number): Grid {
  return 1 / grid.mmPerPixelX <= pixelsPerMm ? grid : fitGrid(grid.repeat, pixelsPerMm);
}
