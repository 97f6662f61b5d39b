import type { Grid } from './grid.ts';
import { boxCount, type Lattice, latticeOf, modulo, unfoldedLayout, wrapPoint } from './lattice.ts';
import type { Layout } from './layout.ts';
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
export function tilePixelFinder({ lattice, tileWidth, tileHeight, repeat: { layout } }: Grid): PixelFinder {
  return foldedFinder(layout, lattice, tileWidth, tileHeight);
}

/** The same in a tile whose drop or brick offset may miss whole pixels: it counts as the nearest that does not. */
export function nearestPixelFinder(layout: Layout, tileWidth: number, tileHeight: number): PixelFinder {
  const { across, down } = boxCount(layout);
  const { ax, ay, bx, by } = latticeOf(unfoldedLayout(layout), tileWidth * across, tileHeight * down);
  return foldedFinder(layout, { ax, ay: Math.round(ay), bx: Math.round(bx), by }, tileWidth, tileHeight);
}

function foldedFinder(layout: Layout, lattice: Lattice, tileWidth: number, tileHeight: number): PixelFinder {
  return (x, y) => {
    const [boxX, boxY] = wrapPoint(lattice, x, y);
    const across = Math.floor(boxX / tileWidth);
    const down = Math.floor(boxY / tileHeight);
    const { flipX, flipY } = reflectionAt(layout, across, down);
    const column = modulo(boxX, tileWidth);
    const row = modulo(boxY, tileHeight);
    return (flipY ? tileHeight - 1 - row : row) * tileWidth + (flipX ? tileWidth - 1 - column : column);
  };
}
