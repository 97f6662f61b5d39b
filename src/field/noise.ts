import type { Lattice } from '../repeat/lattice.ts';
import { type CellLattice, type CellShape, cellLattice } from './cells.ts';
import { fade, GRADIENTS, gradientOf, runBits, runsAcross } from './gradient.ts';
import type { RandomStream } from './random.ts';

/**
 * Gradient noise that closes over a repeat. Plain data, so that it may stand in a model.
 *
 * After Perlin, *Improving noise* (2002), with unit gradients in 256 directions: mean 0, range
 * within +-sqrt(1/2), variance 96835/2081079 (quintic fade, exact integral).
 */
export interface LatticeNoise extends CellLattice {
  readonly seed: number;
  /** Where the cells' zeros lie, in cells: without it the zeros of all octaves would fall together. */
  readonly s0: number;
  readonly t0: number;
}

/** Standard deviation of `noiseAt`. */
export const NOISE_DEVIATION = Math.sqrt(96835 / 2081079);

/** A noise with cells of about `shape`, in mm, closing over `lattice`. */
export function latticeNoise(lattice: Lattice, shape: CellShape, random: RandomStream): LatticeNoise {
  return {
    ...cellLattice(lattice, nearestTurn(shape)),
    seed: random.bits() | 0,
    s0: random.next(),
    t0: random.next(),
  };
}

/** The same cells written with a direction within 45 degrees of the x axis: rows along x then go along s. */
function nearestTurn({ along, across, direction = 0 }: CellShape): CellShape {
  const quarters = Math.round(direction / 90);
  const rest = direction - quarters * 90;
  return quarters % 2 === 0
    ? { along, across, direction: rest }
    : { along: across, across: along, direction: rest };
}

/**
 * The noise at one point.
 *
 * @param x mm, anywhere on the plane.
 * @param y mm, anywhere on the plane.
 */
export function noiseAt(noise: LatticeNoise, x: number, y: number): number {
  const s = noise.sx * x + noise.sy * y + noise.s0;
  const t = noise.tx * x + noise.ty * y + noise.t0;
  const i = Math.floor(s);
  const j = Math.floor(t);
  const u = s - i;
  const v = t - j;
  const { across, slip, down } = noise;
  const seed = noise.seed | 0;
  const runs = runsAcross(noise);
  const turns = Math.floor(i / across);
  const column = i - turns * across;
  const row = wrapRow(j - turns * slip, down);
  const below = row + 1 === down ? 0 : row + 1;
  // Past the right edge stands column 0, `slip` rows up.
  const isLast = column + 1 === across;
  const right = isLast ? 0 : column + 1;
  const rightRow = isLast ? wrapRow(row - slip, down) : row;
  const rightBelow = isLast ? wrapRow(below - slip, down) : below;
  const a = gradientOf(runBits(seed, runs, column, row), column);
  const b = gradientOf(runBits(seed, runs, right, rightRow), right);
  const c = gradientOf(runBits(seed, runs, column, below), column);
  const d = gradientOf(runBits(seed, runs, right, rightBelow), right);
  const fu = fade(u);
  const topLeft = GRADIENTS[a] * u + GRADIENTS[a + 1] * v;
  const topRight = GRADIENTS[b] * (u - 1) + GRADIENTS[b + 1] * v;
  const bottomLeft = GRADIENTS[c] * u + GRADIENTS[c + 1] * (v - 1);
  const bottomRight = GRADIENTS[d] * (u - 1) + GRADIENTS[d + 1] * (v - 1);
  const top = topLeft + fu * (topRight - topLeft);
  const bottom = bottomLeft + fu * (bottomRight - bottomLeft);
  return top + fade(v) * (bottom - top);
}

function wrapRow(row: number, down: number): number {
  return row - Math.floor(row / down) * down;
}
