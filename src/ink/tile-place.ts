import { latticeOf, wrapPoint } from '../repeat/lattice.ts';
import { isReflected, type Layout } from '../repeat/layout.ts';
import { reflectionAt } from '../repeat/unfold.ts';

/** Of a pixel anywhere on the plane, the pixel of the tile that is seen there, as its place row by row. */
export type TilePlace = (x: number, y: number) => number;

/**
 * Looks pixels of a layout up in its tile, mirrored and turned copies too.
 *
 * @param width Whole pixels, as is `height`; both fit the layout.
 */
export function tilePlaces(layout: Layout, width: number, height: number): TilePlace {
  const within = (x: number, y: number) => x >= 0 && y >= 0 && x < width && y < height;
  if (!isReflected(layout)) {
    const lattice = latticeOf(layout, width, height);
    return (x, y) => {
      if (within(x, y)) return y * width + x;
      const [column, row] = wrapPoint(lattice, x, y);
      return row * width + column;
    };
  }
  return (x, y) => {
    if (within(x, y)) return y * width + x;
    const across = Math.floor(x / width);
    const down = Math.floor(y / height);
    const { flipX, flipY } = reflectionAt(layout, across & 1, down & 1);
    const column = x - across * width;
    const row = y - down * height;
    return (flipY ? height - 1 - row : row) * width + (flipX ? width - 1 - column : column);
  };
}
