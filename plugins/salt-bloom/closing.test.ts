import { gridOfPixels, parseLayout } from 'tenter';
import { describe, expect, it } from 'vitest';
import { painted, paintedLayer, prepared } from '../testing/salt-bloom.ts';

const LAYOUTS: [string, number, number][] = [
  ['straight', 200, 160],
  ['drop:1/2', 200, 160],
  ['drop:1/3', 193, 159],
  ['drop:2/5', 187, 155],
  ['brick:1/2', 190, 163],
  ['brick:2/3', 201, 157],
];

function differing(a: Float32Array, b: Float32Array): number {
  let count = 0;
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) count++;
  return count / a.length;
}

function allPlanes({ load, shift, bleed }: ReturnType<typeof paintedLayer>): Float32Array {
  return Float32Array.of(...load, ...shift, ...bleed);
}

/** A tile of so many pixels, its lattice in pixels, and a painter of 90 x 70 of them. */
function tileOf(layout: string, columns: number, rows: number, width: number) {
  const height = (width * rows) / columns;
  const grid = gridOfPixels({ layout: parseLayout(layout), width, height }, columns, rows);
  const model = prepared({ salt: 900, wetness: 60 }, { layout, width, height });
  const step = [grid.mmPerPixelX, grid.mmPerPixelY] as const;
  return { ...grid, at: (x: number, y: number) => allPlanes(paintedLayer(model, x, y, 90, 70, step)) };
}

describe.each(LAYOUTS)('salt over %s', (layout, columns, rows) => {
  it('gives the same floats at every translate, and others where the drop is wrong', () => {
    const { at, lattice } = tileOf(layout, columns, rows, 44);
    const home = at(-37, -53);
    for (const [m, n] of [
      [1, 0],
      [0, 1],
      [-1, 2],
      [2, -1],
    ]) {
      const there = at(-37 + m * lattice.ax + n * lattice.bx, -53 + m * lattice.ay + n * lattice.by);
      expect(differing(home, there)).toBe(0);
    }
    expect(differing(home, at(-37 + lattice.ax + 3, -53 + lattice.ay + 5))).toBeGreaterThan(0.9);
  });
});

describe('salt', () => {
  it('closes on a tile smaller than one bloom', () => {
    const { at, lattice } = tileOf('drop:1/2', 60, 84, 5);
    expect(differing(at(-9, -9), at(-9 + lattice.ax, -9 + lattice.ay))).toBe(0);
    const model = prepared({ grain: 5, wetness: 100, salt: 3000, drifts: 0 }, { width: 5, height: 7 });
    expect(painted(model, -9, -9, 90, 90, 0.085).every((load) => load >= 0 && load < 20)).toBe(true);
  });

  it('is the same floats however the bands are cut, in any order', () => {
    const model = prepared({ salt: 700 });
    const whole = painted(model, -40, -20, 130, 60, 0.12);
    for (const [x, y, width, height] of [
      [101, 40, 29, 20],
      [0, 0, 130, 7],
      [13, 7, 50, 31],
    ]) {
      const part = painted(model, x - 40, y - 20, width, height, 0.12);
      for (let j = 0; j < height; j++) {
        const from = (y + j) * 130 + x;
        expect(part.subarray(j * width, (j + 1) * width)).toEqual(whole.subarray(from, from + width));
      }
    }
  });
});
