import { describe, expect, it } from 'vitest';
import { boxPixelFinder } from '../repeat/fold.ts';
import { unfold } from '../repeat/unfold.ts';
import { gridOf, LAYOUTS, run } from './testing/run-paint.ts';
import { type Pixels, readBand, writeBand } from './working.ts';

function noise<T extends Pixels>(pixels: T): T {
  let state = 1;
  return pixels.map((_, k) =>
    k % 4 === 3 ? 255 : (state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0) >>> 24,
  ) as T;
}

/** The standard normal distribution function at x, from memory of Abramowitz & Stegun, table 26.1. */
const NORMAL = [
  [0, 0.5],
  [0.5, 0.69146],
  [1, 0.84134],
  [1.5, 0.93319],
  [2, 0.97725],
] as const;

describe('layBleed', () => {
  it.each([2, 3, 4, 6, 8, 12])(
    'spreads an edge of amounts of paint as the normal distribution, %s px',
    (spread) => {
      const size = 128;
      const [dark, light] = [60, 230];
      const pixels = new Uint8Array(4 * size * size).fill(255);
      for (let k = 0; k < size * size; k++) pixels.fill(k % size < 64 ? dark : light, 4 * k, 4 * k + 3);
      const ran = run(pixels, gridOf('straight', size), spread);
      const asWas = readBand(pixels, 0, size * size, new Float32Array(4 * size * size));
      const amount = (x: number) => {
        // Between the two pixel centres about x, on row 40.
        const [from, to] = [Math.floor(x - 0.5), Math.floor(x + 0.5)];
        const part = x - 0.5 - from;
        const log = (column: number) => Math.log2(ran[4 * (40 * size + column)]);
        return log(from) * (1 - part) + log(to) * part;
      };
      const [low, high] = [Math.log2(asWas[4 * 10]), Math.log2(asWas[4 * 100])];
      for (const [deviations, share] of NORMAL) {
        const at = (amount(64 + deviations * spread) - low) / (high - low);
        // Two Gaussians mixed have the variance of the one between, but fuller tails and a steeper middle.
        const most = Number.isInteger(Math.log2(spread)) ? 0.01 : 0.04;
        expect(Math.abs(at - share), `${deviations} deviations`).toBeLessThan(most);
      }
    },
  );

  it('leaves the mean amount of paint where it bleeds evenly', () => {
    const pixels = noise(new Uint8Array(4 * 64 * 64));
    const grid = gridOf('drop:1/2', 64);
    const mean = (light: Float32Array) => {
      let sum = 0;
      for (let k = 0; k < light.length; k += 4) sum += Math.log2(Math.max(light[k], 0.5 / 255 / 12.92));
      return (sum * 4) / light.length;
    };
    const before = mean(readBand(pixels, 0, 64 * 64, new Float32Array(pixels.length)));
    for (const spread of [0.7, 2, 5, 11]) expect(mean(run(pixels, grid, spread))).toBeCloseTo(before, 2);
  });

  it('leaves a pixel that does not bleed as it is, to the bit', () => {
    const pixels = noise(new Uint8Array(4 * 32 * 32));
    const spread = Float32Array.from({ length: 32 * 32 }, (_, k) => (k % 3 === 0 ? 4 : 0));
    const back = new Uint8Array(pixels.length);
    writeBand(run(pixels, gridOf('straight', 32), spread), 32 * 32, back, 0);
    for (let k = 0; k < 32 * 32; k++) {
      const same = pixels.subarray(4 * k, 4 * k + 4).every((value, c) => value === back[4 * k + c]);
      expect(same || k % 3 === 0, `pixel ${k}`).toBe(true);
    }
    expect(back).not.toEqual(pixels);
  });

  it.each(LAYOUTS)('bleeds over the edges of %s as in the middle of cloth laid in repeat', (layout) => {
    const grid = gridOf(layout, 32);
    const tile = noise(new Uint8Array(4 * 32 * 32));
    const box = new Uint8Array(4 * grid.width * grid.height);
    unfold(grid.repeat.layout, tile, 32, 32, 4, box);
    // A large straight piece, copy by copy, whose own edges are far from its middle.
    const piece = gridOf('straight', 256);
    const find = boxPixelFinder(grid);
    const laid = new Uint8Array(4 * 256 * 256);
    for (let y = 0; y < 256; y++)
      for (let x = 0; x < 256; x++)
        laid.set(box.subarray(4 * find(x, y), 4 * find(x, y) + 4), 4 * (y * 256 + x));
    for (const spread of [1.2, 3, 7]) {
      const small = run(box, grid, spread);
      const large = run(laid, piece, spread);
      for (let k = 0; k < grid.width * grid.height; k++) {
        const [x, y] = [(k % grid.width) + 128, Math.floor(k / grid.width) + 128];
        const own = find(x, y);
        expect(large[4 * (y * 256 + x)]).toBe(small[4 * own]);
      }
    }
  });

  it.each(['mirror-x', 'mirror-y', 'mirror-xy', 'turn'])(
    'is the same on one tile of %s as unfolded',
    (layout) => {
      const grid = gridOf(layout, 32);
      const tile = noise(new Uint8Array(4 * 32 * 32));
      const box = new Uint8Array(4 * grid.width * grid.height);
      unfold(grid.repeat.layout, tile, 32, 32, 4, box);
      const folded = run(tile, grid, 3, 'tile');
      const unfolded = run(box, grid, 3);
      for (let y = 0; y < 32; y++)
        for (let x = 0; x < 32; x++)
          expect(folded[4 * (y * 32 + x)]).toBeCloseTo(unfolded[4 * (y * grid.width + x)], 5);
    },
  );

  it('leaves one colour as it is, to the bit, and what is far from any other', () => {
    const pixels = new Uint8Array(4 * 128 * 128).fill(255);
    for (let k = 0; k < 128 * 128; k++) pixels.set(k % 128 < 64 ? [31, 61, 74] : [226, 173, 69], 4 * k);
    const ran = run(pixels, gridOf('straight', 128), 3);
    const asWas = readBand(pixels, 0, 128 * 128, new Float32Array(pixels.length));
    for (const column of [30, 34, 96]) {
      const at = 4 * (50 * 128 + column);
      expect(ran.slice(at, at + 4)).toEqual(asWas.slice(at, at + 4));
    }
    expect(ran[4 * (50 * 128 + 62)]).not.toBe(asWas[4 * (50 * 128 + 62)]);
  });

  it('runs half as far at half the strength', () => {
    const pixels = noise(new Uint8Array(4 * 32 * 32));
    const grid = gridOf('brick:1/2', 32);
    expect(run(pixels, grid, 6, 'box', 0.5)).toEqual(run(pixels, grid, 3));
  });

  it('takes no colour from what is transparent, and its cover with it', () => {
    const pixels = new Uint8Array(4 * 64 * 64);
    for (let k = 0; k < 64 * 64; k++) pixels.set(k % 64 < 32 ? [200, 40, 40, 255] : [0, 255, 0, 0], 4 * k);
    const ran = run(pixels, gridOf('straight', 64), 4);
    const red = readBand(pixels, 0, 1, new Float32Array(4));
    const at = 4 * (20 * 64 + 34);
    for (let c = 0; c < 3; c++) expect(ran[at + c]).toBeCloseTo(red[c], 3);
    expect(ran[at + 3]).toBeGreaterThan(0.2);
    expect(ran[at + 3]).toBeLessThan(0.35);
  });

  it('is the same for 16 bits', () => {
    const pixels = noise(new Uint8Array(4 * 32 * 32));
    const deep = Uint16Array.from(pixels, (value) => value * 257);
    const grid = gridOf('drop:1/2', 32);
    const [bytes, shorts] = [run(pixels, grid, 4), run(deep, grid, 4)];
    for (let k = 0; k < bytes.length; k++) expect(shorts[k]).toBeCloseTo(bytes[k], 3);
  });
});
