import { describe, expect, it } from 'vitest';
import { randomStream } from '../field/random.ts';
import { gridOfPixels } from '../repeat/grid.ts';
import type { Lattice } from '../repeat/lattice.ts';
import { parseLayout } from '../repeat/layout.ts';
import { type DotField, openDots } from './dots.ts';
import { createRuledDots } from './ruled-dots.ts';
import { createScatteredDots } from './scattered-dots.ts';
import type { CellTorus } from './torus-kernel.ts';
import { voidAndCluster } from './void-and-cluster.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:1/3', 'drop:2/5', 'brick:1/2', 'brick:3/7', 'drop:5/64'];

function gridOf(layout: string, width: number, height: number, pixelsPerMm = 10) {
  const size = { width: width / pixelsPerMm, height: height / pixelsPerMm };
  return gridOfPixels({ layout: parseLayout(layout), ...size }, width, height);
}

function thresholdsOver(field: DotField, x: number, y: number, width: number, height: number): Uint16Array {
  const dots = openDots(field);
  const all = new Uint16Array(width * height);
  for (let row = 0; row < height; row++)
    dots.row(x, y + row, width, all.subarray(row * width, (row + 1) * width));
  return all;
}

function expectClosed(field: DotField, { ax, ay, bx, by }: Lattice): void {
  const home = thresholdsOver(field, -5, -3, ax + 9, by + 7);
  const differsAt = (x: number, y: number) => {
    const there = thresholdsOver(field, -5 + x, -3 + y, ax + 9, by + 7);
    return there.findIndex((threshold, place) => threshold !== home[place]);
  };
  expect([differsAt(ax, ay), differsAt(bx, by), differsAt(bx - 2 * ax, by - 2 * ay)]).toEqual([-1, -1, -1]);
  expect(differsAt(1, 0)).not.toBe(-1);
}

function meanOf(thresholds: Uint16Array, amount: number): number {
  let standing = 0;
  for (const threshold of thresholds) if (amount > threshold) standing++;
  return standing / thresholds.length;
}

describe('scattered dots', () => {
  it.each(LAYOUTS)(
    'close over %s by plain comparison, also where fields do not fit and dots are large',
    (layout) => {
      const grid = gridOf(layout, 210, 128 * 15);
      const field = createScatteredDots({ lattice: grid.lattice, side: 40 });
      expectClosed(field, grid.lattice);
      expect(field.across * field.down).toBeGreaterThan(field.field.width * field.field.height);
      expectClosed(
        createScatteredDots({ lattice: grid.lattice, side: 24, leastDot: { across: 4, down: 4 } }),
        grid.lattice,
      );
    },
  );
  it('fill the largest production repeat with whole fields of about the side asked', () => {
    for (const layout of ['straight', 'drop:1/2', 'drop:2/5', 'brick:1/2']) {
      const [width, height] = layout.startsWith('brick') ? [7560, 3779] : [7559, 3780];
      const { lattice } = gridOf(layout, width, height);
      const { field, across, down } = createScatteredDots({ lattice, side: 96 });
      expect(across % field.width).toBe(0);
      expect(down % field.height).toBe(0);
      expect(Math.min(field.width, field.height)).toBeGreaterThan(72);
      expect(Math.max(field.width, field.height)).toBeLessThan(130);
    }
  });
  it('meet the tone at every one of 256 levels', () => {
    const { lattice } = gridOf('drop:1/2', 192, 128);
    const all = thresholdsOver(createScatteredDots({ lattice, side: 64 }), 0, 0, 192, 128);
    for (let level = 0; level < 256; level++)
      expect(Math.abs(meanOf(all, level * 257) - level / 255)).toBeLessThanOrEqual(1 / (64 * 64));
  });
  it('meet it within 1/255 where cells are stretched', () => {
    const { lattice } = gridOf('straight', 263, 251);
    const field = createScatteredDots({ lattice, side: 64, leastDot: { across: 3, down: 2 } });
    const all = thresholdsOver(field, 0, 0, 263, 251);
    for (let level = 0; level < 256; level++)
      expect(Math.abs(meanOf(all, level * 257) - level / 255)).toBeLessThan(1 / 255);
  });
  it('stand in cells that are nowhere smaller than the least dot', () => {
    const { lattice } = gridOf('drop:1/3', 263, 252);
    const field = createScatteredDots({ lattice, side: 64, leastDot: { across: 3, down: 3 } });
    const all = thresholdsOver(field, 0, 0, 263, 252);
    const run = (x: number, y: number, step: number) => all[y * 263 + x] === all[y * 263 + x + step];
    for (let y = 0; y < 252; y++) {
      let length = 1;
      for (let x = 1; x < 263; x++) {
        if (run(x - 1, y, 1)) length++;
        else {
          if (length < 3) expect(length).toBeGreaterThanOrEqual(3);
          length = 1;
        }
      }
    }
  });
  it('say what is wrong with a dot larger than the repeat', () => {
    const { lattice } = gridOf('straight', 20, 20);
    expect(() => createScatteredDots({ lattice, leastDot: { across: 21, down: 2 } })).toThrow(/least dot/);
  });
});

/** Mean power per frequency below `share` of the principal frequency, and at it, of a white pattern's. */
function spectrum(torus: CellTorus, ranks: Uint32Array, gray: number) {
  // The smallest straight box of a torus whose shear is half its height is two fields wide.
  const [width, height] = [torus.width * 2, torus.height];
  const standing: [number, number][] = [];
  const count = Math.round(gray * ranks.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const copy = Math.floor(x / torus.width);
      const row = (y + copy * (height - torus.shear)) % height;
      if (ranks[row * torus.width + (x % torus.width)] < count) standing.push([x, y]);
    }
  const principal = Math.sqrt(Math.min(gray, 1 - gray));
  const white = gray * (1 - gray) * width * height;
  const bands = { low: [0, 0], near: [0, 0] };
  for (let n = 0; n <= height / 2; n++)
    for (let m = -width / 2; m < width / 2; m++) {
      // A pattern that closes over half a drop has power only where m + n is even (check-values, section 8).
      const f = Math.hypot(m / width, n / height) / principal;
      if (f === 0 || (m + n) % 2 !== 0 || f > 1.2 || (f > 0.55 && f < 0.85)) continue;
      let [re, im] = [0, 0];
      for (const [x, y] of standing) {
        const phase = 2 * Math.PI * ((m * x) / width + (n * y) / height);
        re += Math.cos(phase);
        im += Math.sin(phase);
      }
      const band = f < 0.7 ? bands.low : bands.near;
      band[0] += (re * re + im * im) / white / 2;
      band[1]++;
    }
  return { low: bands.low[0] / bands.low[1], near: bands.near[0] / bands.near[1] };
}

describe('void and cluster', () => {
  const torus = { width: 64, height: 64, shear: 32 };
  const ranks = voidAndCluster(torus, randomStream('1', 'dots'));
  it('ranks every cell once', () => {
    expect(new Set(ranks).size).toBe(64 * 64);
    expect(Math.max(...ranks)).toBe(64 * 64 - 1);
  });
  it.each([1 / 64, 1 / 16, 1 / 8, 1 / 4, 3 / 4, 15 / 16])(
    'has next to no energy below the principal frequency (Ulichney 1987, 1993) at a share of %f, sheared',
    (gray) => {
      const { low, near } = spectrum(torus, ranks, gray);
      expect(low).toBeLessThan(0.15);
      expect(near).toBeGreaterThan(0.9);
    },
  );
  it('would be caught were it white', () => {
    const random = randomStream('2', 'white');
    const white = ranks.slice();
    for (let k = white.length - 1; k > 0; k--) {
      const other = random.below(k + 1);
      [white[k], white[other]] = [white[other], white[k]];
    }
    expect(spectrum(torus, white, 1 / 8).low).toBeGreaterThan(0.6);
  });
});

describe('ruled dots', () => {
  it.each(LAYOUTS)('close over %s by plain comparison', (layout) => {
    const grid = gridOf(layout, 210, 960);
    for (const shape of ['lines', 'round'] as const) {
      const field = createRuledDots({ grid, shape, perCm: 12, angle: 33 });
      expectClosed(field, grid.lattice);
      expect(Math.abs(field.snapped.perCm - 12)).toBeLessThan(0.5);
      expect(Math.abs(field.snapped.angle - 33)).toBeLessThan(3);
    }
  });
  it('meet the tone at every one of 256 levels, at odd angles and at whole pixels', () => {
    const grid = gridOf('drop:1/2', 320, 240);
    for (const shape of ['lines', 'round'] as const)
      for (const [perCm, angle] of [
        [12.5, 0],
        [12.5, 45],
        [11, 22.5],
        [9, 75],
      ]) {
        const all = thresholdsOver(createRuledDots({ grid, shape, perCm, angle }), 0, 0, 320, 240);
        for (let level = 0; level < 256; level++)
          expect(Math.abs(meanOf(all, level * 257) - level / 255), `${shape} ${perCm} ${angle}`).toBeLessThan(
            1 / 255,
          );
      }
  });
  it('say the ruling and angle that they were moved to', () => {
    const grid = gridOf('straight', 300, 300);
    const lines = createRuledDots({ grid, shape: 'lines', perCm: 10, angle: 90 });
    // Lines that stand upright, one each 10 px: thirty whole waves across and none down.
    expect(lines.waves).toEqual([[30, 0]]);
    expect(lines.snapped.perCm).toBeCloseTo(10);
    expect(lines.snapped.angle).toBeCloseTo(90);
    const [top, below] = [thresholdsOver(lines, 0, 0, 300, 1), thresholdsOver(lines, 0, 90, 300, 1)];
    const standing = (row: Uint16Array) => Array.from(row, (threshold) => 32_768 > threshold);
    expect(standing(top)).toEqual(standing(below));
    // At 45 degrees lines climb to the right: one pixel right and one up is the same place of the wave.
    const slanted = createRuledDots({ grid, shape: 'lines', perCm: 10 * Math.SQRT1_2 * 1.2, angle: 45 });
    expect(slanted.waves[0][0]).toBe(slanted.waves[0][1]);
  });
  it('refuse a ruling that is too fine, for the density or for the least dot, and say what would do', () => {
    const grid = gridOf('straight', 300, 300);
    expect(() => createRuledDots({ grid, shape: 'lines', perCm: 26, angle: 0 })).toThrow(
      /at most 25 lines per cm/,
    );
    expect(() => createRuledDots({ grid, shape: 'round', perCm: 20, angle: 0, leastDot: 0.3 })).toThrow(
      /at most 16\.6 lines per cm at a least dot/,
    );
    expect(() => createRuledDots({ grid, shape: 'lines', perCm: 0.01, angle: 0 })).toThrow(
      /at least one line/,
    );
    expect(() => createRuledDots({ grid, shape: 'lines', perCm: Number.NaN, angle: 0 })).toThrow(/per cm/);
  });
});
