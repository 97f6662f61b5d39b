import { describe, expect, it } from 'vitest';
import { decodeSrgb, encodeSrgb } from '../colour/srgb.ts';
import type { Band } from '../effect/effect.ts';
import { boxPixelFinder, tilePixelFinder } from '../repeat/fold.ts';
import { gridOfPixels } from '../repeat/grid.ts';
import { parseLayout } from '../repeat/layout.ts';
import { unfold } from '../repeat/unfold.ts';
import { type ShiftSource, sampleShifted } from './shift.ts';
import { type Pixels, readBand } from './working.ts';

const WIDTH = 12;
const HEIGHT = 8;
const LAYOUTS = [
  'straight',
  'drop:1/2',
  'drop:1/4',
  'brick:1/2',
  'brick:1/3',
  'mirror-x',
  'mirror-y',
  'mirror-xy',
  'turn',
];

/** Half a mm to the pixel, so that shifts of whole pixels are exact in mm. */
const gridOf = (layout: string) =>
  gridOfPixels({ layout: parseLayout(layout), width: WIDTH / 2, height: HEIGHT / 2 }, WIDTH, HEIGHT);

const bandOf = (width: number, height: number, x = 0, y = 0): Band => ({
  x,
  y,
  width,
  height,
  mmPerPixelX: 0.5,
  mmPerPixelY: 0.5,
});

function noise<T extends Pixels>(pixels: T, seed = 1): T {
  let state = seed;
  return pixels.map(() => (state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0) >>> 16) as T;
}

/** The same shift, in pixels, everywhere. */
const evenShift = (count: number, dx: number, dy: number) =>
  Float32Array.from({ length: count * 2 }, (_, index) => (index % 2 ? dy : dx) / 2);

function sample(source: ShiftSource, band: Band, shift: Float32Array, strength: number | Float32Array = 1) {
  const working = new Float32Array(band.width * band.height * 4).fill(9);
  sampleShifted(source, band, shift, strength, working);
  return working;
}

/** The box of a layout laid in repeat, 5 by 5 times, by moving whole copies only: no wrapping. */
function laidInRepeat(
  box: Uint8Array,
  grid: ReturnType<typeof gridOf>,
): { pixels: Uint8Array; width: number } {
  const { width, height, lattice } = grid;
  const [wide, high] = [width * 5, height * 5];
  const pixels = new Uint8Array(wide * high * 4);
  for (let m = -9; m <= 9; m++) {
    for (let n = -9; n <= 9; n++) {
      const left = 2 * width + m * lattice.ax + n * lattice.bx;
      const upper = 2 * height + m * lattice.ay + n * lattice.by;
      for (let y = Math.max(0, -upper); y < Math.min(height, high - upper); y++) {
        for (let x = Math.max(0, -left); x < Math.min(width, wide - left); x++) {
          const from = (y * width + x) * 4;
          pixels.set(box.subarray(from, from + 4), ((upper + y) * wide + left + x) * 4);
        }
      }
    }
  }
  return { pixels, width: wide };
}

describe.each(LAYOUTS)('a shift over %s', (layout) => {
  const grid = gridOf(layout);
  const tile = noise(new Uint8Array(WIDTH * HEIGHT * 4));
  const box = unfold(
    grid.repeat.layout,
    tile,
    WIDTH,
    HEIGHT,
    4,
    new Uint8Array(grid.width * grid.height * 4),
  );
  const band = bandOf(grid.width, grid.height);
  const source = { pixels: box, width: grid.width, height: grid.height, find: boxPixelFinder(grid) };
  const shift = Float32Array.from(
    { length: grid.width * grid.height * 2 },
    (_, k) => 3 * Math.sin(k * 12.9898),
  );

  it('takes over the edges what stands there in repeat', () => {
    const repeated = laidInRepeat(box, grid);
    const wide = {
      pixels: repeated.pixels,
      width: repeated.width,
      height: grid.height * 5,
      find: () => {
        throw new Error('left the laid-out plane');
      },
    };
    const middle = bandOf(grid.width, grid.height, 2 * grid.width, 2 * grid.height);
    expect(sample(source, band, shift)).toEqual(sample(wide, middle, shift));
  });

  it('takes from one tile what it takes from the box', () => {
    const folded = { pixels: tile, width: WIDTH, height: HEIGHT, find: tilePixelFinder(grid) };
    const part = bandOf(WIDTH, HEIGHT);
    const short = shift.subarray(0, WIDTH * HEIGHT * 2);
    expect(sample(folded, part, short)).toEqual(sample(source, part, short));
  });

  it('by a lattice vector is no shift', () => {
    const { ax, ay, bx, by } = grid.lattice;
    const still = readBand(box, 0, grid.width * grid.height, new Float32Array(box.length));
    for (const [dx, dy] of [
      [ax, ay],
      [bx, by],
      [bx - 2 * ax, by - 2 * ay],
    ])
      expect(sample(source, band, evenShift(grid.width * grid.height, dx, dy))).toEqual(still);
  });
});

describe('sampling', () => {
  const grid = gridOf('straight');
  const sourceOf = (pixels: Pixels): ShiftSource => ({
    pixels,
    width: WIDTH,
    height: HEIGHT,
    find: boxPixelFinder(grid),
  });
  const count = WIDTH * HEIGHT;
  const band = bandOf(WIDTH, HEIGHT);

  it.each([
    ['8', noise(new Uint8Array(count * 4))],
    ['16', noise(new Uint16Array(count * 4))],
  ])('at %s bits reads the pixel itself where nothing is shifted', (_bits, pixels) => {
    const still = readBand(pixels, 0, count, new Float32Array(count * 4));
    expect(sample(sourceOf(pixels), band, new Float32Array(count * 2))).toEqual(still);
    expect(sample(sourceOf(pixels), band, evenShift(count, 3.3, 1.7), 0)).toEqual(still);
  });

  it('goes where the shift points: paint at +3, -1 comes here', () => {
    const pixels = noise(new Uint8Array(count * 4));
    const moved = sample(sourceOf(pixels), bandOf(1, 1, 4, 5), evenShift(1, 3, -1));
    expect(moved).toEqual(readBand(pixels, (4 * WIDTH + 7) * 4, 1, new Float32Array(4)));
  });

  it('keeps the hidden colour of clear paint that is moved by whole pixels', () => {
    const pixels = noise(new Uint8Array(count * 4)).map((value, at) => (at % 4 === 3 ? 0 : value));
    const moved = sample(sourceOf(pixels), bandOf(1, 1, 4, 5), evenShift(1, 3, -1));
    expect(moved).toEqual(readBand(pixels, (4 * WIDTH + 7) * 4, 1, new Float32Array(4)));
  });

  it('scales the shift by the strength of each pixel', () => {
    const pixels = noise(new Uint8Array(count * 4));
    const half = sample(sourceOf(pixels), bandOf(2, 1, 4, 4), evenShift(2, 2, 4), Float32Array.of(0.5, 1));
    expect(half.subarray(0, 4)).toEqual(readBand(pixels, (6 * WIDTH + 5) * 4, 1, new Float32Array(4)));
    expect(half.subarray(4)).toEqual(readBand(pixels, (0 * WIDTH + 7) * 4, 1, new Float32Array(4)));
  });

  // Keys (1981): the kernel with a = -1/2 reproduces any second-degree polynomial.
  it('follows a parabola of light exactly', () => {
    const light = (x: number) => 0.1 + 0.05 * x - 0.002 * x * x;
    const pixels = Uint16Array.from({ length: count * 4 }, (_, at) =>
      at % 4 === 3 ? 65_535 : Math.round(65_535 * encodeSrgb(light(Math.floor(at / 4) % WIDTH))),
    );
    for (const part of [0.25, 0.5, 0.9]) {
      const working = sample(sourceOf(pixels), bandOf(1, 1, 5, 4), evenShift(1, part, 0.3));
      expect(working[0]).toBeCloseTo(light(5 + Math.fround(part / 2) * 2), 4);
    }
  });

  it('draws no rim along an edge', () => {
    const [dark, pale] = [60, 190];
    const pixels = Uint8Array.from({ length: count * 4 }, (_, at) =>
      at % 4 === 3 ? 255 : Math.floor(at / 4) % WIDTH < 6 ? dark : pale,
    );
    for (const part of [-0.7, -0.2, 0.4, 0.5]) {
      const row = sample(sourceOf(pixels), bandOf(8, 1, 2, 4), evenShift(8, part, part));
      const lights = Array.from({ length: 8 }, (_, x) => row[x * 4]);
      for (let x = 1; x < 8; x++) expect(lights[x]).toBeGreaterThanOrEqual(lights[x - 1]);
      expect(Math.min(...lights)).toBeCloseTo(decodeSrgb(dark / 255), 6);
      expect(Math.max(...lights)).toBeCloseTo(decodeSrgb(pale / 255), 6);
    }
  });

  it('mixes light, not stored values', () => {
    const pixels = Uint8Array.from({ length: count * 4 }, (_, at) =>
      at % 4 === 3 || Math.floor(at / 4) % WIDTH < 6 ? 255 : 0,
    );
    const between = sample(sourceOf(pixels), bandOf(1, 1, 5, 4), evenShift(1, 0.5, 0));
    expect(between[0]).toBeCloseTo(0.5, 6);
  });

  it('takes no colour from what is not there', () => {
    const pixels = Uint8Array.from({ length: count * 4 }, (_, at) => {
      const there = Math.floor(at / 4) % WIDTH < 6;
      return [there ? 200 : 0, there ? 0 : 255, 0, there ? 255 : 0][at % 4];
    });
    const edge = sample(sourceOf(pixels), bandOf(1, 1, 5, 4), evenShift(1, 0.5, 0));
    expect([...edge]).toEqual([Math.fround(decodeSrgb(200 / 255)), 0, 0, 0.5]);
    const beyond = sample(sourceOf(pixels), bandOf(1, 1, 7, 4), evenShift(1, 0.5, 0));
    expect(beyond[3]).toBe(0);
  });
});
