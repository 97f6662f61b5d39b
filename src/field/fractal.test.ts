import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { addFractalRow, type FractalNoise, fractalAt, fractalNoise } from './fractal.ts';
import { randomStream } from './random.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:1/3', 'drop:2/5', 'brick:1/2', 'brick:2/3'];
const boxFor = (layout: string, width = 61, height = 47) =>
  boxOf({ layout: parseLayout(layout), width, height });

/** The mean square over a repeat, from points that fall on no octave's own lattice. */
function meanSquare(fractal: FractalNoise, width: number, height: number): number {
  const [across, down] = [701, 613];
  const row = new Float64Array(across);
  let sum = 0;
  for (let j = 0; j < down; j++) {
    addFractalRow(fractal, 0, width / across, (j * height) / down, 1, row.fill(0), across);
    for (const value of row) sum += value * value;
  }
  return sum / (across * down);
}

describe('fractal noise', () => {
  const box = boxFor('straight', 300, 260);

  // The variances of independent octaves add: (1 - g^2n) / (1 - g^2) times the first one's.
  it.each([
    [0.5, 1.328125],
    [Math.SQRT1_2, 1.875],
  ])('of four octaves at gain %d has %d times the variance of the first', (gain, times) => {
    const fractal = fractalNoise(
      box.lattice,
      { along: 4, across: 4 },
      { octaves: 4, gain },
      randomStream('a', 'b'),
    );
    const first: FractalNoise = { octaves: [fractal.octaves[0]], gains: [fractal.gains[0]] };
    const ratio = meanSquare(fractal, 300, 260) / meanSquare(first, 300, 260);
    expect(Math.abs(ratio / times - 1)).toBeLessThan(0.02);
  });

  it.each([
    [1, 0.5, 2, 1],
    [5, 0.6, 2, 0.25],
    [3, 0.8, 1.7, 7],
  ])(
    'of %d octaves, gain %d, lacunarity %d has the stated deviation %d',
    (octaves, gain, lacunarity, deviation) => {
      const shape = { octaves, gain, lacunarity, deviation };
      const fractal = fractalNoise(box.lattice, { along: 4, across: 4 }, shape, randomStream('c', 'd'));
      expect(Math.abs(Math.sqrt(meanSquare(fractal, 300, 260)) / deviation - 1)).toBeLessThan(0.03);
    },
  );

  it('shows no grid where the first octave is zero', () => {
    const fractal = fractalNoise(
      box.lattice,
      { along: 4, across: 4 },
      { octaves: 4, gain: 0.5 },
      randomStream('e', 'f'),
    );
    const { sx, ty, s0, t0 } = fractal.octaves[0];
    let squares = 0;
    for (let k = 0; k < 4000; k++) {
      squares += fractalAt(fractal, ((k % 75) - s0) / sx, (Math.floor(k / 75) - t0) / ty) ** 2;
    }
    // What the other octaves add there is 0.328125 / 1.328125 of the whole variance, were they unrelated.
    expect(Math.abs(squares / 4000 - 0.247)).toBeLessThan(0.1);
  });
});

describe.each(LAYOUTS)('fractal noise over %s', (layout) => {
  const box = boxFor(layout);
  const { ax, ay, bx, by } = box.lattice;
  const fractal = fractalNoise(
    box.lattice,
    { along: 15, across: 1.5, direction: 12 },
    { octaves: 5, gain: 0.6, lacunarity: 1.9 },
    randomStream(layout, 'fractal'),
  );

  it('closes', () => {
    const random = randomStream(layout, 'points');
    for (let k = 0; k < 300; k++) {
      const [x, y] = [random.between(-300, 300), random.between(-300, 300)];
      const here = fractalAt(fractal, x, y);
      expect(Math.abs(fractalAt(fractal, x + ax, y + ay) - here)).toBeLessThan(1e-9);
      expect(Math.abs(fractalAt(fractal, x - 2 * bx, y - 2 * by) - here)).toBeLessThan(1e-9);
    }
  });

  it('by the row equals point by point', () => {
    const row = new Float32Array(300);
    addFractalRow(fractal, -80, 0.53, 33.3, 3, row, 290, 10);
    for (let k = 0; k < 290; k++) {
      expect(Math.abs(row[10 + k] - 3 * fractalAt(fractal, -80 + k * 0.53, 33.3))).toBeLessThan(1e-5);
    }
    expect([...row.subarray(0, 10)]).toEqual(new Array(10).fill(0));
  });
});
