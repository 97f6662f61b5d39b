import { createNoise2D } from 'simplex-noise';
import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { latticeNoise, noiseAt } from './noise.ts';
import { randomStream } from './random.ts';
import { openTorusNoise, TORUS_NOISE_DEVIATION, torusNoise } from './torus.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:1/3', 'drop:2/5', 'brick:1/2', 'brick:2/3'];
const boxFor = (layout: string, width = 61, height = 47) =>
  boxOf({ layout: parseLayout(layout), width, height });

type Noise = (x: number, y: number) => number;

/** The correlation of a noise with itself at (dx, dy) away, and its moments. */
function statistics(at: Noise, dx: number, dy: number, reach: number, count = 60_000) {
  const random = randomStream('statistics', 'points');
  let [sum, squares, products, largest] = [0, 0, 0, 0];
  for (let k = 0; k < count; k++) {
    const [x, y] = [random.between(0, reach), random.between(0, reach)];
    const value = at(x, y);
    sum += value;
    squares += value * value;
    products += value * at(x + dx, y + dy);
    largest = Math.max(largest, Math.abs(value));
  }
  return { mean: sum / count, variance: squares / count, correlation: products / squares, largest };
}

describe.each(LAYOUTS)('torus noise over %s', (layout) => {
  const { lattice } = boxFor(layout);
  const noise = openTorusNoise(torusNoise(lattice, 5, randomStream(layout, 'torus')));

  it('closes, and has no shorter period', () => {
    const random = randomStream(layout, 'points');
    const { ax, ay, bx, by } = lattice;
    let between = 0;
    for (let k = 0; k < 300; k++) {
      const [x, y] = [random.between(-200, 200), random.between(-200, 200)];
      const here = noise.at(x, y);
      expect(Math.abs(noise.at(x + ax, y + ay) - here)).toBeLessThan(1e-9);
      expect(Math.abs(noise.at(x - 3 * bx, y - 3 * by) - here)).toBeLessThan(1e-9);
      for (const [m, n] of [
        [0.5, 0],
        [0, 0.5],
        [0.5, 0.5],
      ]) {
        between += Math.abs(noise.at(x + m * ax + n * bx, y + m * ay + n * by) - here) / 900;
      }
    }
    expect(between).toBeGreaterThan(TORUS_NOISE_DEVIATION / 2);
  });

  it('by the row equals point by point', () => {
    const row = new Float64Array(3000).fill(1);
    noise.addRow(-71, 0.05, 13, 2, row, 2998, 1);
    expect([row[0], row[2999]]).toEqual([1, 1]);
    for (let k = 0; k < 2998; k += 7) {
      expect(Math.abs(row[k + 1] - 1 - 2 * noise.at(-71 + k * 0.05, 13))).toBeLessThan(1e-10);
    }
  });

  it('is the same for the same seed, and another for another', () => {
    const again = openTorusNoise(torusNoise(lattice, 5, randomStream(layout, 'torus')));
    const other = openTorusNoise(torusNoise(lattice, 5, randomStream('other', 'torus')));
    expect(again.at(3, 4)).toBe(noise.at(3, 4));
    expect(other.at(3, 4)).not.toBe(noise.at(3, 4));
  });
});

describe('the statistics that the two noises are said to have', () => {
  const { lattice } = boxFor('straight', 400, 170);
  const torus = openTorusNoise(torusNoise(lattice, 1, randomStream('s', 'torus'))).at;
  const cells = latticeNoise(lattice, { along: 1, across: 1 }, randomStream('s', 'cells'));
  const plane: Noise = (x, y) => noiseAt(cells, x, y);

  it('torus: mean 0, deviation 0.298, nearly the whole of +-1', () => {
    const { mean, variance, largest } = statistics(torus, 0.1, 0, 400, 300_000);
    expect(Math.abs(mean)).toBeLessThan(0.01);
    expect(Math.abs(Math.sqrt(variance) / TORUS_NOISE_DEVIATION - 1)).toBeLessThan(0.02);
    expect(largest).toBeGreaterThan(0.85);
    expect(largest).toBeLessThan(1);
  });

  // The plane's own simplex noise in version 4 of the package: variance 0.192 of +-0.998, sampled.
  it('unlike simplex noise of the plane: variance 0.192 to 0.195', () => {
    const { variance } = statistics(createNoise2D(randomStream('s', 'plane').next), 1, 0, 5000, 200_000);
    expect(variance).toBeGreaterThan(0.185);
    expect(variance).toBeLessThan(0.2);
  });

  it('have features of the same size', () => {
    for (const at of [torus, plane]) {
      for (const [dx, dy] of [
        [0.387, 0],
        [0, 0.387],
        [0.274, 0.274],
      ]) {
        expect(Math.abs(statistics(at, dx, dy, 400).correlation - 0.5)).toBeLessThan(0.035);
      }
    }
  });

  it('differ beside a bump: a dent in one, hardly any in the other', () => {
    expect(Math.abs(statistics(plane, 0.94, 0, 400).correlation + 0.135)).toBeLessThan(0.04);
    expect(Math.abs(statistics(torus, 0.94, 0, 400).correlation + 0.036)).toBeLessThan(0.03);
  });

  // A reduced pair of vectors meets at 60 to 120 degrees, so the stretch is at most sqrt(3).
  it.each(['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3'])(
    'torus: drawn out by no more than 1.73, %s',
    (layout) => {
      const box = boxFor(layout, 300, 300);
      const { at } = openTorusNoise(torusNoise(box.lattice, 1, randomStream('t', 'torus')));
      const correlations = Array.from({ length: 8 }, (_, k) => {
        const angle = (k * Math.PI) / 8;
        return statistics(at, 0.387 * Math.cos(angle), 0.387 * Math.sin(angle), 300, 30_000).correlation;
      });
      const spread = Math.max(...correlations) - Math.min(...correlations);
      if (layout === 'straight') expect(spread).toBeLessThan(0.06);
      else expect(spread).toBeGreaterThan(0.06);
      // At 1.73 times the half-way distance 0.387 and at 1 / 1.73 of it, the measured correlation is 0.09 and 0.81.
      expect(Math.min(...correlations)).toBeGreaterThan(0.09);
      expect(Math.max(...correlations)).toBeLessThan(0.81);
    },
  );
});
