import { boxPixelFinder, type PixelFinder, tilePixelFinder } from '../repeat/fold.ts';
import type { Grid } from '../repeat/grid.ts';

/**
 * What a frame holds: the unfolded box, or one tile where the texture follows a reflected artwork and nothing
 * is lit; or a patch of the plane, beyond whose edges all counts as it is at the edge.
 */
export type Space = 'box' | 'tile' | 'patch';

/** Pixels of such a frame on a grid. */
export function sizeOf(grid: Grid, space: Space): { readonly width: number; readonly height: number } {
  return space === 'tile'
    ? { width: grid.tileWidth, height: grid.tileHeight }
    : { width: grid.width, height: grid.height };
}

/** The same, with a finder for the pixels beyond its edges. */
export function openSpace(
  grid: Grid,
  space: Space,
): { readonly width: number; readonly height: number; readonly find: PixelFinder } {
  if (space === 'patch') return openPatch(grid.width, grid.height);
  const find = space === 'box' ? boxPixelFinder(grid) : tilePixelFinder(grid);
  return { ...sizeOf(grid, space), find };
}

function openPatch(width: number, height: number) {
  const within = (value: number, size: number) => Math.min(Math.max(value, 0), size - 1);
  const find: PixelFinder = (x, y) => within(y, height) * width + within(x, width);
  return { width, height, find };
}

/** Pixels of a band: few enough for its planes (tens of bytes each) to stay small, enough to pay the call. */
const BAND_PIXELS = 1 << 18;

/** How many rows each band of a frame has. Depends on the frame alone, never on the number of workers. */
export function bandRowsFor(width: number, height: number, pixels = BAND_PIXELS): number {
  return Math.min(height, Math.max(8, Math.floor(pixels / width)));
}
