import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { nearestPixelFinder } from '../repeat/fold.ts';
import { parseLayout } from '../repeat/layout.ts';
import { resample, type TilePixels } from './resample.ts';
import type { Pixels } from './working.ts';

const LAYOUTS = [
  'straight',
  'drop:1/2',
  'drop:1/3',
  'brick:1/2',
  'mirror-x',
  'mirror-y',
  'mirror-xy',
  'turn',
];

function resampled(from: TilePixels, layout: string, width: number, height: number): Pixels {
  const length = 4 * width * height;
  const pixels = from.pixels.BYTES_PER_ELEMENT === 2 ? new Uint16Array(length) : new Uint8Array(length);
  const find = nearestPixelFinder(parseLayout(layout), from.width, from.height);
  resample({ ...from, find }, { pixels, width, height });
  return pixels;
}

/** IEC 61966-2-1. */
const encode = (light: number) => (light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055);
const decode = (value: number) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4);

/** 16-bit grey of the given light, 0..1. */
function grey(width: number, height: number, light: (x: number, y: number) => number): TilePixels {
  const pixels = new Uint16Array(4 * width * height).fill(65_535);
  for (let k = 0; k < width * height; k++) {
    const value = Math.round(65_535 * encode(light(k % width, Math.floor(k / width))));
    pixels.fill(value, 4 * k, 4 * k + 3);
  }
  return { pixels, width, height };
}

function noise(width: number, height: number, alpha = false): TilePixels {
  let state = 9;
  const pixels = new Uint8Array(4 * width * height).map((_, k) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return k % 4 === 3 && !alpha ? 255 : state >>> 24;
  });
  return { pixels, width, height };
}

describe('resample', () => {
  it.each([
    [121, 120],
    [120, 121],
    [120, 160],
    [120, 48],
  ])('draws a wave of light as it is, %d rows to %d', (before, after) => {
    const wave = (y: number, rows: number) => 0.5 + 0.4 * Math.sin((2 * Math.PI * 4 * (y + 0.5)) / rows);
    const to = resampled(
      grey(4, before, (_, y) => wave(y, before)),
      'straight',
      4,
      after,
    );
    // The mean of a sine over a pixel of `after` is lower by sin(a) / a, a half of its phase; a point's is not.
    const half = before / after >= 1.1 ? (Math.PI * 4) / after : 0;
    const lower = half > 0 ? Math.sin(half) / half : 1;
    for (let y = 0; y < after; y++) {
      const wanted = 0.5 + (wave(y, after) - 0.5) * lower;
      expect(Math.abs(decode(to[16 * y] / 65_535) - wanted), `row ${y}`).toBeLessThan(0.005);
    }
  });

  it('keeps the mean light of the finest stripes, which encoded values would darken', () => {
    const from = grey(4, 121, (_, y) => (y % 2 === 0 ? 0.8 : 0.02));
    const to = resampled(from, 'straight', 4, 120);
    const mean = (pixels: Pixels) => {
      let sum = 0;
      for (let k = 0; k < pixels.length; k += 4) sum += decode(pixels[k] / 65_535);
      return (4 * sum) / pixels.length;
    };
    expect(mean(to)).toBeCloseTo(mean(from.pixels), 2);
  });

  it.each([
    [64, 96],
    [64, 80],
  ])('agrees with the cubic of another library, in linear light, %d px to %d', async (before, after) => {
    const from = grey(before, before, (x, y) => 0.5 + 0.2 * Math.sin(x / 3) + 0.2 * Math.cos(y / 4 + x / 9));
    const to = resampled(from, 'straight', after, after);
    // Linear light in grey of 16 bits, so that the library itself converts nothing.
    const light = Uint16Array.from({ length: before * before }, (_, k) =>
      Math.round(65_535 * decode(from.pixels[4 * k] / 65_535)),
    );
    // Its own resize counts from corners; here pixels lie about their centres.
    const scale = after / before;
    const centres = { idx: 0.5, idy: 0.5, odx: -0.5, ody: -0.5 };
    const { data, info } = await sharp(light, { raw: { width: before, height: before, channels: 1 } })
      .affine([scale, 0, 0, scale], { interpolator: 'bicubic', ...centres })
      .toColourspace('grey16')
      .raw({ depth: 'ushort' })
      .toBuffer({ resolveWithObject: true });
    expect([info.width, info.height]).toEqual([after, after]);
    const other = new Uint16Array(data.buffer, data.byteOffset, after * after);
    // Its edges do not repeat.
    for (let y = 6; y < after - 6; y++)
      for (let x = 6; x < after - 6; x++) {
        const own = decode(to[4 * (y * after + x)] / 65_535);
        expect(Math.abs(own - other[y * after + x] / 65_535), `${x}, ${y}`).toBeLessThan(0.002);
      }
  });

  describe.each(LAYOUTS)('over %s', (layout) => {
    it.each([
      [48, 36, 64, 48],
      [48, 36, 24, 18],
      [48, 36, 30, 18],
    ])('%d x %d px become %d x %d as in the middle of cloth', (width, height, newWidth, newHeight) => {
      const tile = noise(width, height);
      const find = nearestPixelFinder(parseLayout(layout), width, height);
      // Five by five tiles, copy by copy, of which the middle one stands as it is.
      const [wide, high] = [5 * width, 5 * height];
      const cloth = new Uint8Array(4 * wide * high);
      for (let y = 0; y < high; y++)
        for (let x = 0; x < wide; x++) {
          const at = 4 * find(x - 2 * width, y - 2 * height);
          cloth.set(tile.pixels.subarray(at, at + 4), 4 * (y * wide + x));
        }
      const small = resampled(tile, layout, newWidth, newHeight);
      const large = resampled(
        { pixels: cloth, width: wide, height: high },
        'straight',
        5 * newWidth,
        5 * newHeight,
      );
      for (let y = 0; y < newHeight; y++) {
        const start = 4 * ((y + 2 * newHeight) * 5 * newWidth + 2 * newWidth);
        const row = [...small.subarray(4 * y * newWidth, 4 * (y + 1) * newWidth)];
        // But for the rounding of places that lie further from the corner.
        row.forEach((value, k) => {
          expect(Math.abs(value - large[start + k]), `row ${y}`).toBeLessThanOrEqual(1);
        });
      }
    });
  });

  it('takes no colour from what is transparent', () => {
    const pixels = new Uint8Array(4 * 4 * 33);
    for (let k = 0; k < 4 * 33; k++) pixels.set(k < 4 * 16 ? [200, 40, 40, 255] : [0, 255, 0, 0], 4 * k);
    const to = resampled({ pixels, width: 4, height: 33 }, 'straight', 4, 32);
    for (let k = 0; k < to.length; k += 4)
      if (to[k + 3] > 0)
        for (const [c, value] of [200, 40, 40].entries())
          expect(Math.abs(to[k + c] - value)).toBeLessThanOrEqual(1);
    expect(to.filter((_, k) => k % 4 === 3).some((alpha) => alpha > 0 && alpha < 255)).toBe(true);
  });

  it('leaves a tile of as many pixels as it is, to the bit, also what is hardly covered', () => {
    const tile = noise(17, 12, true);
    const to = resampled(tile, 'drop:1/2', 17, 12);
    for (let k = 0; k < to.length; k += 4)
      if (tile.pixels[k + 3] > 0)
        expect([...to.subarray(k, k + 4)]).toEqual([...tile.pixels.subarray(k, k + 4)]);
  });
});
