import type { CellLattice } from './cells.ts';
import { mixBits } from './hash.ts';

const DIRECTIONS = 256;

/** Unit vectors in 256 directions: the part along s at 2k, the part along t at 2k + 1. */
export const GRADIENTS = new Float64Array(2 * DIRECTIONS);
for (let k = 0; k < DIRECTIONS; k++) {
  GRADIENTS[2 * k] = Math.cos((2 * Math.PI * (k + 0.5)) / DIRECTIONS);
  GRADIENTS[2 * k + 1] = Math.sin((2 * Math.PI * (k + 0.5)) / DIRECTIONS);
}

/** How many runs of four columns a row of cells has; the last may be short. */
export function runsAcross({ across }: CellLattice): number {
  return (across + 3) >> 2;
}

/**
 * 32 bits that hold the directions of four cells side by side, a byte each: a row of noise asks for
 * its cells in order, and hashing is most of what a narrow cell costs.
 *
 * @param column Of the wrapped cell: 0 <= column < across.
 * @param row    Of the wrapped cell: 0 <= row < down.
 */
export function runBits(seed: number, runs: number, column: number, row: number): number {
  return mixBits(seed ^ Math.imul((column >> 2) + row * runs, 0x27d4eb2d));
}

/** Where in `GRADIENTS` the direction of `column` stands, given the bits of its run. */
export function gradientOf(bits: number, column: number): number {
  return ((bits >>> ((column & 3) << 3)) & 255) << 1;
}

/**
 * Where in `GRADIENTS` the directions at the four corners of cell (i, j) stand: (i, j), (i + 1, j),
 * (i, j + 1), (i + 1, j + 1).
 *
 * @param i Whole, anywhere on the plane.
 * @param j Whole, anywhere on the plane.
 */
export function cornerGradients(
  cells: CellLattice,
  seed: number,
  i: number,
  j: number,
  to: Int32Array,
): void {
  const across = cells.across | 0;
  const slip = cells.slip | 0;
  const down = cells.down | 0;
  const runs = runsAcross(cells);
  let column = i | 0;
  let row = j | 0;
  // Divisions are what a point costs most; inside the box none is needed.
  if (column < 0 || column >= across) {
    const turns = Math.floor(column / across);
    column -= turns * across;
    row -= turns * slip;
  }
  if (row < 0 || row >= down) row -= Math.floor(row / down) * down;
  const below = row + 1 === down ? 0 : row + 1;
  let right = column + 1;
  let rightRow = row;
  let rightBelow = below;
  if (right === across) {
    // Past the right edge stands column 0, `slip` rows up.
    right = 0;
    rightRow = row < slip ? row - slip + down : row - slip;
    rightBelow = rightRow + 1 === down ? 0 : rightRow + 1;
  }
  to[0] = gradientOf(runBits(seed, runs, column, row), column);
  to[1] = gradientOf(runBits(seed, runs, right, rightRow), right);
  to[2] = gradientOf(runBits(seed, runs, column, below), column);
  to[3] = gradientOf(runBits(seed, runs, right, rightBelow), right);
}

/** Perlin's quintic, 6t^5 - 15t^4 + 10t^3 (*Improving noise*, 2002). */
export function fade(t: number): number {
  return t * t * t * (t * (t * 6 - 15) + 10);
}
