import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { fractalOnPixels, noiseCorrelation, pixelShare } from './footprint.ts';
import { addFractalRow, fractalNoise } from './fractal.ts';
import { type LatticeNoise, latticeNoise, noiseAt } from './noise.ts';
import { randomStream } from './random.ts';

const { lattice } = boxOf({ layout: parseLayout('drop:1/2'), width: 200, height: 180 });

/** The mean over a pixel with its centre at (x, y), by many samples. */
function meanOver(noise: LatticeNoise, x: number, y: number, width: number, height: number): number {
  let sum = 0;
  for (let k = 0; k < 144; k++) {
    const [p, q] = [((k % 12) + 0.5) / 12 - 0.5, (Math.floor(k / 12) + 0.5) / 12 - 0.5];
    sum += noiseAt(noise, x + p * width, y + q * height);
  }
  return sum / 144;
}

describe('the correlation of lattice noise', () => {
  const noise = latticeNoise(lattice, { along: 1, across: 1 }, randomStream('c', 'noise'));

  it.each([
    [0, 0],
    [0.2, 0.1],
    [0.5, 0],
    [0.6, 0.6],
    [0.9, 0],
    [1.3, 0.4],
    [2.1, 0],
  ])('at (%d, %d) cells is what the noise has', (d, e) => {
    const random = randomStream('c', 'points');
    let [products, squares] = [0, 0];
    for (let k = 0; k < 100_000; k++) {
      const [x, y] = [random.between(0, 200), random.between(0, 180)];
      const value = noiseAt(noise, x, y);
      squares += value * value;
      products += value * noiseAt(noise, x + d / noise.sx, y + e / noise.ty);
    }
    expect(Math.abs(noiseCorrelation(d, e) - products / squares)).toBeLessThan(0.012);
  });
});

describe('the share of a noise that a pixel shows', () => {
  it.each([
    [{ along: 1, across: 1 }, 0.1, 0.1],
    [{ along: 1, across: 1 }, 0.5, 0.5],
    [{ along: 1, across: 1 }, 0.8, 1.2],
    [{ along: 1, across: 1 }, 2.5, 2.5],
    [{ along: 8, across: 0.6, direction: 25 }, 0.4, 0.4],
  ])('of cells %j, pixels %d x %d mm is the one that fits its means best', (shape, width, height) => {
    const noise = latticeNoise(lattice, shape, randomStream('f', 'noise'));
    const random = randomStream('f', 'points');
    let [products, squares] = [0, 0];
    for (let k = 0; k < 6000; k++) {
      const [x, y] = [random.between(0, 200), random.between(0, 180)];
      const value = noiseAt(noise, x, y);
      squares += value * value;
      products += value * meanOver(noise, x, y, width, height);
    }
    expect(Math.abs(pixelShare(noise, width, height) - products / squares)).toBeLessThan(0.015);
  });
});

describe('a fractal on pixels', () => {
  const shape = { octaves: 5, gain: 0.7 };
  const fractal = fractalNoise(lattice, { along: 3, across: 3 }, shape, randomStream('p', 'fractal'));
  const fine = 0.08;
  const rowOf = (of: typeof fractal, x0: number, step: number, y: number, count: number) => {
    const row = new Float64Array(count);
    addFractalRow(of, x0, step, y, 1, row, count);
    return row;
  };

  it('a quarter as dense is nearer to the dense one seen from afar than mere samples are', () => {
    const [dense, coarse] = [
      fractalOnPixels(fractal, fine, fine),
      fractalOnPixels(fractal, 4 * fine, 4 * fine),
    ];
    let [sampled, faithful, squares] = [0, 0, 0];
    for (let j = 0; j < 60; j++) {
      const mean = new Float64Array(100);
      for (let k = 0; k < 4; k++) {
        const row = rowOf(dense, fine / 2, fine, (4 * j + k + 0.5) * fine, 400);
        row.forEach((value, i) => {
          mean[i >> 2] += value / 16;
        });
      }
      const y = (j + 0.5) * 4 * fine;
      const [plain, fitted] = [
        rowOf(fractal, 2 * fine, 4 * fine, y, 100),
        rowOf(coarse, 2 * fine, 4 * fine, y, 100),
      ];
      for (let i = 0; i < 100; i++) {
        squares += mean[i] ** 2;
        sampled += (plain[i] - mean[i]) ** 2;
        faithful += (fitted[i] - mean[i]) ** 2;
      }
    }
    expect(faithful).toBeLessThan(sampled / 2);
    expect(Math.sqrt(faithful / squares)).toBeLessThan(0.25);
  });

  it('leaves large cells as they are and fine ones out', () => {
    expect(fractalOnPixels(fractal, 0.01, 0.01).gains[0]).toBeCloseTo(fractal.gains[0], 3);
    expect(fractalOnPixels(fractal, 2, 2).octaves.length).toBeLessThan(5);
    expect(fractalOnPixels(fractal, 50, 50).octaves).toEqual([]);
  });
});
