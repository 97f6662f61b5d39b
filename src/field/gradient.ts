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

/** Perlin's quintic, 6t^5 - 15t^4 + 10t^3 (*Improving noise*, 2002). */
export function fade(t: number): number {
  return t * t * t * (t * (t * 6 - 15) + 10);
}
