import { cellIndex, type FieldShape } from './periodic.ts';

/** For each cell, where its four neighbours stand in `values`, over every seam. */
export interface Neighbours {
  /** Per cell, where the cell to its left stands in `values`. */
  readonly left: Int32Array;
  /** Per cell, where the cell to its right stands in `values`. */
  readonly right: Int32Array;
  /** Per cell, where the cell above it stands in `values`. */
  readonly above: Int32Array;
  /** Per cell, where the cell below it stands in `values`. */
  readonly below: Int32Array;
}

/** The neighbour tables of a field: look them up once, for they take 16 bytes per cell. */
export function neighboursOf(shape: FieldShape): Neighbours {
  const { width, height } = shape;
  const table = (di: number, dj: number) => {
    const to = new Int32Array(width * height);
    for (let j = 0, k = 0; j < height; j++) {
      for (let i = 0; i < width; i++, k++) {
        const isInside = i + di >= 0 && i + di < width && j + dj >= 0 && j + dj < height;
        to[k] = isInside ? k + di + dj * width : cellIndex(shape, i + di, j + dj);
      }
    }
    return to;
  };
  return { left: table(-1, 0), right: table(1, 0), above: table(0, -1), below: table(0, 1) };
}

/**
 * One explicit step of the heat equation by the five-point star: each value moves towards the mean of
 * its neighbours. The wave with p and q periods across a straight box of `width` x `height` is multiplied
 * by 1 - 4*(rateX*sin^2(pi*p/width) + rateY*sin^2(pi*q/height)).
 *
 * Keeps the sum, and within the range of the old values where 2*rateX + 2*rateY <= 1.
 *
 * @param rateX Diffusivity * time / (cell width)^2.
 * @param rateY Diffusivity * time / (cell height)^2.
 * @returns The new values; the old ones stay.
 */
export function diffuseExplicitly(
  values: Float64Array,
  { left, right, above, below }: Neighbours,
  rateX: number,
  rateY = rateX,
): Float64Array {
  const next = new Float64Array(values.length);
  for (let k = 0; k < next.length; k++) {
    const twice = 2 * values[k];
    next[k] =
      values[k] +
      rateX * (values[left[k]] + values[right[k]] - twice) +
      rateY * (values[above[k]] + values[below[k]] - twice);
  }
  return next;
}
