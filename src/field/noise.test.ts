import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { type Box, boxOf } from '../repeat/repeat.ts';
import type { CellShape } from './cells.ts';
import { type LatticeNoise, latticeNoise, NOISE_DEVIATION, noiseAt } from './noise.ts';
import { addNoiseRow } from './noise-row.ts';
import { randomStream } from './random.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:1/3', 'drop:2/5', 'brick:1/2', 'brick:2/3'];
const SHAPES: Record<string, CellShape> = {
  round: { along: 4.3, across: 4.3 },
  'stretched level': { along: 19, across: 1.2 },
  'stretched at 20 degrees': { along: 12, across: 0.9, direction: 20 },
  'stretched at 90 degrees': { along: 19, across: 1.2, direction: 90 },
  'stretched at 160 degrees': { along: 12, across: 1.5, direction: 160 },
  'finer than a pixel': { along: 0.05, across: 0.08 },
  'larger than the repeat': { along: 500, across: 400, direction: 33 },
};

const boxFor = (layout: string, width = 61, height = 47): Box =>
  boxOf({ layout: parseLayout(layout), width, height });

const noiseFor = (box: Box, shape: CellShape, seed = 'seed'): LatticeNoise =>
  latticeNoise(box.lattice, shape, randomStream(seed, 'noise'));

/** Some cells' own place (s, t) as a point in mm. */
function pointOf(noise: LatticeNoise, s: number, t: number): [number, number] {
  const determinant = noise.sx * noise.ty - noise.sy * noise.tx;
  const [p, q] = [s - noise.s0, t - noise.t0];
  return [(p * noise.ty - q * noise.sy) / determinant, (q * noise.sx - p * noise.tx) / determinant];
}

/** A block of pixels with its corner at pixel (x, y), 0.1 mm each, by rows. */
function block(noise: LatticeNoise, x: number, y: number, width: number, height: number): Float64Array {
  const values = new Float64Array(width * height);
  for (let j = 0; j < height; j++) {
    addNoiseRow(noise, (x + 0.5) * 0.1, 0.1, (y + j + 0.5) * 0.1, 1, values, width, j * width);
  }
  return values;
}

const largestDifference = (a: Float64Array, b: Float64Array) =>
  a.reduce((most, value, k) => Math.max(most, Math.abs(value - b[k])), 0);

describe('lattice noise', () => {
  const box = boxFor('straight', 400, 300);
  const noise = noiseFor(box, { along: 1, across: 1 });

  // K. Perlin, Improving noise (2002): gradient noise vanishes at its lattice points.
  it('is zero at every corner of its cells', () => {
    for (let k = 0; k < 500; k++) {
      const [x, y] = pointOf(noise, k * 7 - 900, 400 - k * 3);
      expect(Math.abs(noiseAt(noise, x, y))).toBeLessThan(1e-10);
    }
  });

  // The exact integral for the quintic fade and unit gradients: 96835/2081079; at a cell's centre 1/16.
  it('has the variance of the exact integral', () => {
    const random = randomStream('points', 'variance');
    let [sum, squares, centre] = [0, 0, 0];
    const count = 200_000;
    for (let k = 0; k < count; k++) {
      const value = noiseAt(noise, random.between(-900, 900), random.between(-900, 900));
      sum += value;
      squares += value * value;
      const [x, y] = pointOf(noise, random.below(400) + 0.5, random.below(300) + 0.5);
      centre += noiseAt(noise, x, y) ** 2;
    }
    expect(Math.abs(sum / count)).toBeLessThan(0.003);
    expect(squares / count / (96835 / 2081079)).toBeCloseTo(1, 1.5);
    expect(centre / count / (1 / 16)).toBeCloseTo(1, 1.5);
    expect(NOISE_DEVIATION ** 2).toBeCloseTo(96835 / 2081079, 12);
  });

  // Gradient noise with unit gradients in n dimensions lies within sqrt(n / 4).
  it('stays within the square root of one half, and nearly reaches it', () => {
    const values = block(noiseFor(box, { along: 0.8, across: 0.8 }), 0, 0, 1500, 1500);
    const largest = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    expect(largest).toBeLessThanOrEqual(Math.SQRT1_2);
    expect(largest).toBeGreaterThan(0.6);
  });

  it('takes an impossible place without hanging', () => {
    for (const direction of [0, 20]) {
      const row = new Float64Array(9);
      addNoiseRow(noiseFor(box, { along: 1, across: 1, direction }), Number.NaN, 0.1, 0, 1, row, 9);
      expect(row.every(Number.isNaN)).toBe(true);
    }
  });

  it('gives other noise for another seed', () => {
    const other = noiseFor(box, { along: 1, across: 1 }, 'other');
    expect(largestDifference(block(noise, 0, 0, 50, 50), block(other, 0, 0, 50, 50))).toBeGreaterThan(0.3);
  });
});

describe.each(LAYOUTS)('lattice noise over %s', (layout) => {
  const box = boxFor(layout);
  const { ax, ay, bx, by } = box.lattice;

  it.each(Object.keys(SHAPES))('closes, %s', (name) => {
    const noise = noiseFor(box, SHAPES[name]);
    const random = randomStream(layout, name);
    for (let k = 0; k < 200; k++) {
      const [x, y] = [random.between(-300, 300), random.between(-300, 300)];
      const [m, n] = [random.below(9) - 4, random.below(9) - 4];
      const there = noiseAt(noise, x + m * ax + n * bx, y + m * ay + n * by);
      expect(Math.abs(there - noiseAt(noise, x, y))).toBeLessThan(1e-9);
    }
  });

  it('is smooth everywhere, over the seams too', () => {
    // Over a thousandth of a cell the noise may climb by some thousandths; a seam would leap by tenths.
    const noise = noiseFor(box, SHAPES.round);
    const random = randomStream(layout, 'smooth');
    for (let k = 0; k < 4000; k++) {
      const [x, y] = [random.between(-100, 100), random.between(-100, 100)];
      expect(Math.abs(noiseAt(noise, x + 4e-3, y + 3e-3) - noiseAt(noise, x, y))).toBeLessThan(0.005);
    }
  });

  it.each(Object.keys(SHAPES))('by the row equals point by point, forwards and backwards, %s', (name) => {
    const noise = noiseFor(box, SHAPES[name]);
    for (const [x0, step, y] of [
      [-37.3, 0.1, -53.7],
      [95.2, -0.13, 12.1],
      [3, 2.7, 71],
      [3, 0, 71],
    ]) {
      const row = new Float64Array(402).fill(1);
      addNoiseRow(noise, x0, step, y, 2, row, 400, 1);
      expect([row[0], row[401]]).toEqual([1, 1]);
      for (let k = 0; k < 400; k++) {
        expect(Math.abs(row[k + 1] - 1 - 2 * noiseAt(noise, x0 + k * step, y))).toBeLessThan(1e-10);
      }
    }
  });

  it.each(Object.keys(SHAPES))('is the same picture at an odd offset and at its translates, %s', (name) => {
    const noise = noiseFor(box, SHAPES[name]);
    // The block moves by the lattice vector itself, whether or not that is whole in its pixels of 0.1 mm.
    const here = block(noise, -37, -53, 120, 90);
    for (const [m, n] of [
      [1, 0],
      [0, 1],
      [-2, 1],
      [3, -5],
    ]) {
      const there = block(noise, -37 + 10 * (m * ax + n * bx), -53 + 10 * (m * ay + n * by), 120, 90);
      expect(largestDifference(here, there)).toBeLessThan(1e-9);
      expect(here.filter((value, k) => toByte(value) !== toByte(there[k])).length).toBe(0);
    }
  });

  it('does not close over a lattice that is not its own', () => {
    const noise = noiseFor(box, SHAPES.round);
    const here = block(noise, -37, -53, 120, 90);
    const there = block(noise, -37 + 10 * (ax + bx), -53 + 10 * (ay + by) + 94, 120, 90);
    expect(largestDifference(here, there)).toBeGreaterThan(0.2);
  });
});

const toByte = (value: number) => Math.round(127.5 + 127.5 * value);
