import { describe, expect, it } from 'vitest';
import { forwardTransform, inverseTransform } from '../field/fourier.ts';
import { hashUnit } from '../field/hash.ts';
import { type StripEnds, StripPoisson } from './strip-poisson.ts';

/**
 * The same by the exact Fourier solution on a torus: the strip and its negative mirror image, which is 0 beyond
 * both long sides; of an open strip its positive mirror image follows along.
 */
function byFourier(sums: Float64Array, across: number, along: number, ends: StripEnds): Float64Array {
  const width = 2 * (across + 1);
  const height = ends === 'cyclic' ? along : 2 * along;
  const values = new Float32Array(width * height);
  for (let y = 0; y < height; y++)
    for (let i = 0; i < across; i++) {
      const sum = sums[i + (y < along ? y : 2 * along - 1 - y) * across];
      values[i + 1 + y * width] = sum;
      values[width - 1 - i + y * width] = -sum;
    }
  const shape = {
    ...{ width, height, mmPerCellX: 1, mmPerCellY: 1 },
    lattice: { ax: width, ay: 0, bx: 0, by: height },
  };
  const spectrum = forwardTransform({ ...shape, values } as never);
  for (let q = 0; q < height; q++)
    for (let p = 0; p < width; p++) {
      const lift = 4 - 2 * Math.cos((2 * Math.PI * p) / width) - 2 * Math.cos((2 * Math.PI * q) / height);
      for (const k of [0, 1]) spectrum.waves[2 * (p + q * width) + k] *= p === 0 && q === 0 ? 0 : 1 / lift;
    }
  const solved = inverseTransform(spectrum).values;
  return Float64Array.from(sums, (_, at) => solved[(at % across) + 1 + Math.floor(at / across) * width]);
}

const SIZES = [
  [5, 12],
  [6, 7],
  [31, 40],
  [12, 3],
  [9, 2],
  [4, 1],
  [1, 6],
] as const;

describe.each(['open', 'cyclic'] as const)("Poisson's equation on a strip with %s ends", (ends) => {
  it.each(SIZES)('is solved as by Fourier on the torus, %i x %i', (across, along) => {
    const sums = Float64Array.from({ length: across * along }, (_, k) =>
      Math.fround(hashUnit(3, k, 0) - 0.5),
    );
    const exact = byFourier(sums, across, along, ends);
    const field = sums.slice();
    new StripPoisson(across, along, ends).solve(field);
    for (let at = 0; at < field.length; at++) expect(field[at]).toBeCloseTo(exact[at], 4);
  });
  it('leaves nothing where nothing is given', () => {
    const field = new Float64Array(60);
    new StripPoisson(5, 12, ends).solve(field);
    expect(field.every((value) => value === 0)).toBe(true);
  });
});
