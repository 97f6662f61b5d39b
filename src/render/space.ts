import { boxPixelFinder, type PixelFinder, tilePixelFinder } from '../repeat/fold.ts';
import type { Grid } from '../repeat/grid.ts';

/** What a frame holds: the unfolded box, or one tile where the texture follows a reflected artwork and nothing is lit. */
export type Space = 'box' | 'tile';

/** Pixels of such a frame on a grid. */
export function sizeOf(grid: Grid, space: Space): { readonly width: number; readonly height: number } {
  return space === 'box'
    ? { width: grid.width, height: grid.height }
    : { width: grid.tileWidth, height: grid.tileHeight };
}

/** The same, with a finder for the pixels beyond its edges. */
export function openSpace(
  grid: Grid,
  space: Space,
): { readonly width: number; readonly height: number; readonly find: PixelFinder } {
  const find = space === 'box' ? boxPixelFinder(grid) : tilePixelFinder(grid);
  return { ...sizeOf(grid, space), find };
}

/** Pixels of a band: few enough for its planes (tens of bytes each) to stay small, enough to pay the call. */
const BAND_PIXELS = 1 << 18;

/** How many rows each band of a frame has. Depends on the frame alone, never on the number of workers. */
export function bandRowsFor(width: number, height: number): number {
  return Math.min(height, Math.max(8, Math.floor(BAND_PIXELS / width)));
}
