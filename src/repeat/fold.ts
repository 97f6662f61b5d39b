import type { Grid } from './grid.ts';
import { modulo, wrapPoint } from './lattice.ts';
import { reflectionAt } from './unfold.ts';

/**
 * Finds the pixel of a stored picture that shows any whole pixel (x, y) of the plane.
 *
 * @returns The pixel's number, `row * width + column`.
 */
export type PixelFinder = (x: number, y: number) => number;

/** Finds pixels in a picture of the whole unfolded box. */
export function boxPixelFinder({ lattice, width }: Grid): PixelFinder {
  return (x, y) => {
    const [column, row] = wrapPoint(lattice, x, y);
    return row * width + column;
  };
}

/** Finds pixels in a picture of one tile; a reflected layout folds back onto it. */
export function tilePixelFinder(grid: Grid): PixelFinder {
  const { lattice, tileWidth, tileHeight, repeat } = grid;
  return (x, y) => {
    const [boxX, boxY] = wrapPoint(lattice, x, y);
    const across = Math.floor(boxX / tileWidth);
    const down = Math.floor(boxY / tileHeight);
    const { flipX, flipY } = reflectionAt(repeat.layout, across, down);
    const column = modulo(boxX, tileWidth);
    const row = modulo(boxY, tileHeight);
    return (flipY ? tileHeight - 1 - row : row) * tileWidth + (flipX ? tileWidth - 1 - column : column);
  };
}
