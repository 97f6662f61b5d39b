import type { Lattice } from '../repeat/lattice.ts';
import { type CellLattice, type CellShape, cellLattice, wrapCell } from './cells.ts';
import { hashCell } from './hash.ts';
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

const DIRECTIONS = 256;
const GRADIENT_S = new Float64Array(DIRECTIONS);
const GRADIENT_T = new Float64Array(DIRECTIONS);
for (let k = 0; k < DIRECTIONS; k++) {
  GRADIENT_S[k] = Math.cos((2 * Math.PI * (k + 0.5)) / DIRECTIONS);
  GRADIENT_T[k] = Math.sin((2 * Math.PI * (k + 0.5)) / DIRECTIONS);
}

/** A noise with cells of about `shape`, in mm, closing over `lattice`. */
export function latticeNoise(lattice: Lattice, shape: CellShape, random: RandomStream): LatticeNoise {
  return { ...cellLattice(lattice, shape), seed: random.bits(), s0: random.next(), t0: random.next() };
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
  const [u, v] = [s - i, t - j];
  const fu = fade(u);
  const top = (1 - fu) * corner(noise, i, j, u, v) + fu * corner(noise, i + 1, j, u - 1, v);
  const bottom =
    (1 - fu) * corner(noise, i, j + 1, u, v - 1) + fu * corner(noise, i + 1, j + 1, u - 1, v - 1);
  return top + fade(v) * (bottom - top);
}

/**
 * Adds `gain` times the noise along a row of points to `row`. Several times faster than `noiseAt`,
 * and equal to it within rounding.
 *
 * @param x0    mm of the first point.
 * @param step  mm from point to point.
 * @param y     mm.
 * @param row   Receives `count` sums from `offset` on.
 */
export function addNoiseRow(
  noise: LatticeNoise,
  x0: number,
  step: number,
  y: number,
  gain: number,
  row: Float32Array | Float64Array,
  count: number,
  offset = 0,
): void {
  const startS = noise.sx * x0 + noise.sy * y + noise.s0;
  const startT = noise.tx * x0 + noise.ty * y + noise.t0;
  const stepS = noise.sx * step;
  const stepT = noise.tx * step;
  let k = 0;
  while (k < count) {
    const i = Math.floor(startS + k * stepS);
    const j = Math.floor(startT + k * stepT);
    const end = Math.min(stepsInside(startS, stepS, i, k, count), stepsInside(startT, stepT, j, k, count));
    const a = gradientIndex(noise, i, j);
    const b = gradientIndex(noise, i + 1, j);
    const c = gradientIndex(noise, i, j + 1);
    const d = gradientIndex(noise, i + 1, j + 1);
    const [as, at] = [GRADIENT_S[a], GRADIENT_T[a]];
    const [bs, bt] = [GRADIENT_S[b], GRADIENT_T[b]];
    const [cs, ct] = [GRADIENT_S[c], GRADIENT_T[c]];
    const [ds, dt] = [GRADIENT_S[d], GRADIENT_T[d]];
    if (stepT === 0) {
      const v = startT - j;
      const fv = fade(v);
      // With v fixed each side is linear in u: left = p + q*u, right = m + n*u.
      const p = at * v + fv * (ct * (v - 1) - at * v);
      const q = as + fv * (cs - as);
      const n = bs + fv * (ds - bs);
      const m = bt * v + fv * (dt * (v - 1) - bt * v) - n;
      for (; k < end; k++) {
        const u = startS + k * stepS - i;
        const left = p + q * u;
        row[offset + k] += gain * (left + u * u * u * (u * (u * 6 - 15) + 10) * (m + n * u - left));
      }
    } else {
      for (; k < end; k++) {
        const u = startS + k * stepS - i;
        const v = startT + k * stepT - j;
        const fu = u * u * u * (u * (u * 6 - 15) + 10);
        const fv = v * v * v * (v * (v * 6 - 15) + 10);
        const top = (1 - fu) * (as * u + at * v) + fu * (bs * (u - 1) + bt * v);
        const bottom = (1 - fu) * (cs * u + ct * (v - 1)) + fu * (ds * (u - 1) + dt * (v - 1));
        row[offset + k] += gain * (top + fv * (bottom - top));
      }
    }
  }
}

/** The first step after `k` that leaves cell `cell`, `limit` at most. */
function stepsInside(start: number, step: number, cell: number, k: number, limit: number): number {
  if (step === 0) return limit;
  const edge = step > 0 ? cell + 1 : cell;
  let end = Math.max(k + 1, Math.min(limit, Math.ceil((edge - start) / step)));
  // The division may be off by one in the last digit; the cell decides.
  while (end > k + 1 && Math.floor(start + (end - 1) * step) !== cell) end--;
  while (end < limit && Math.floor(start + end * step) === cell) end++;
  return end;
}

/** Perlin's quintic, 6t^5 - 15t^4 + 10t^3. */
function fade(t: number): number {
  return t * t * t * (t * (t * 6 - 15) + 10);
}

function gradientIndex(noise: LatticeNoise, i: number, j: number): number {
  const cell = wrapCell(noise, i, j);
  return hashCell(noise.seed, cell, 0) >>> 24;
}

function corner(noise: LatticeNoise, i: number, j: number, u: number, v: number): number {
  const k = gradientIndex(noise, i, j);
  return GRADIENT_S[k] * u + GRADIENT_T[k] * v;
}
