import type { Lattice } from '../repeat/lattice.ts';
import { type CellLattice, type CellShape, cellLattice } from './cells.ts';
import { cornerGradients, fade, GRADIENTS } from './gradient.ts';
import type { RandomStream } from './random.ts';

/**
 * Gradient noise that closes over a repeat. Plain data, so that it may stand in a model.
 *
 * After Perlin, *Improving noise* (2002), with unit gradients in 256 directions: mean 0, range
 * within +-sqrt(1/2), variance 96835/2081079 (quintic fade, exact integral).
 */
export interface LatticeNoise extends CellLattice {
  /** 32 bits that the gradients come from. */
  readonly seed: number;
  /**
   * Where the cells' zeros lie along s, in cells: without it the zeros of all octaves would fall together.
   */
  readonly s0: number;
  /** The same along t, in cells. */
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

/** Kept from call to call; always written before it is read. */
const corners = new Int32Array(4);

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
  cornerGradients(noise, noise.seed, i, j, corners);
  const a = corners[0];
  const b = corners[1];
  const c = corners[2];
  const d = corners[3];
  const fu = fade(u);
  const topLeft = GRADIENTS[a] * u + GRADIENTS[a + 1] * v;
  const topRight = GRADIENTS[b] * (u - 1) + GRADIENTS[b + 1] * v;
  const bottomLeft = GRADIENTS[c] * u + GRADIENTS[c + 1] * (v - 1);
  const bottomRight = GRADIENTS[d] * (u - 1) + GRADIENTS[d + 1] * (v - 1);
  const top = topLeft + fu * (topRight - topLeft);
  const bottom = bottomLeft + fu * (bottomRight - bottomLeft);
  return top + fade(v) * (bottom - top);
}
