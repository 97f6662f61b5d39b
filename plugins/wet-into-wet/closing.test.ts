import { describe, expect, it } from 'vitest';
import { type Made, makeWet, paintWet } from './testing.ts';

const FULL = { second: '#b5482f', charges: 12, blooms: 20, spatter: 60, floods: 1, tilt: 0.6 };
const CASES: [layout: string, size: string][] = [
  ['straight', '41x29mm'],
  ['drop:1/2', '40x30mm'],
  ['drop:1/3', '37x51mm'],
  ['drop:2/5', '41x29mm'],
  ['brick:1/2', '40x30mm'],
  ['drop:1/2', '5x7mm'],
  ['straight', '2x3mm'],
];
const TRANSLATES = [
  [1, 0],
  [0, 1],
  [-2, 3],
] as const;
const WIDTH = 61;
const HEIGHT = 47;
const bytes = (values: Float32Array) => Buffer.from(values.buffer, values.byteOffset, values.byteLength);

function paintAt(made: Made, m: number, n: number, slip = 0) {
  const { ax, ay, bx, by } = made.grid.lattice;
  return paintWet(made, -37 + m * ax + n * bx, -53 + m * ay + n * by + slip, WIDTH, HEIGHT);
}

describe('every lattice translate is the same', () => {
  it.each(CASES)('%s %s', (layout, size) => {
    const made = makeWet(FULL, layout, size);
    const home = paintAt(made, 0, 0);
    for (const [m, n] of TRANSLATES) {
      const there = paintAt(made, m, n);
      for (const plane of ['load', 'shift', 'tint', 'bleed'] as const)
        expect(bytes(home[plane]).equals(bytes(there[plane]))).toBe(true);
    }
    expect(home.load.every((value) => value >= 0 && value < 4)).toBe(true);
  });

  it.each(['drop:1/2', 'straight', 'brick:1/2'])('and a wrong lattice is not, at %s', (layout) => {
    const made = makeWet(FULL, layout, '40x30mm');
    const home = paintAt(made, 0, 0).load;
    const wrong = paintAt(made, 1, 0, 5).load;
    const different = wrong.filter((value, k) => Math.abs(value - home[k]) > 1e-4).length;
    expect(different / home.length).toBeGreaterThan(0.98);
  });
});

describe('the same bytes', () => {
  it('from the same setting, and others from another seed', () => {
    const [one, two] = [makeWet(FULL, 'drop:1/2', '30x30mm'), makeWet(FULL, 'drop:1/2', '30x30mm')];
    const other = makeWet(FULL, 'drop:1/2', '30x30mm', { seed: 'other' });
    const load = (made: Made) => bytes(paintAt(made, 0, 0).load);
    expect(load(one).equals(load(two))).toBe(true);
    expect(load(one).equals(load(other))).toBe(false);
  });

  it('in bands cut anyhow', () => {
    const made = makeWet(FULL, 'brick:1/2', '30x20mm');
    const whole = paintWet(made, -11, -7, 400, 30);
    for (const [x, y, width, height] of [
      [0, 0, 400, 1],
      [0, 29, 400, 1],
      [17, 5, 1, 25],
      [331, 11, 29, 8],
    ]) {
      const part = paintWet(made, -11 + x, -7 + y, width, height);
      for (const [plane, channels] of [
        ['load', 1],
        ['shift', 2],
        ['tint', 4],
      ] as const) {
        for (let row = 0; row < height; row++) {
          const from = ((y + row) * 400 + x) * channels;
          const cut = part[plane].slice(row * width * channels, (row + 1) * width * channels);
          expect(cut).toEqual(whole[plane].slice(from, from + width * channels));
        }
      }
    }
  });
});
