import { ssim } from 'ssim.js';
import { boxOf, hashUnit, type Picture, parseLayout, randomStream, type ValuesOf } from 'tenter';
import { describe, expect, it } from 'vitest';
import { PARAMETERS } from './parameters.ts';
import { partOf } from './part.ts';
import { pyramidOf } from './pyramid.ts';
import { measure } from './suits.ts';
import { swatchOf } from './swatch.ts';
import { clouds } from './testing.ts';
import type { Level } from './way.ts';
import { grow, paintGrown } from './ways.ts';

type Values = ValuesOf<typeof PARAMETERS>;

const DEFAULTS = Object.fromEntries(
  Object.entries(PARAMETERS).map(([name, parameter]) => [name, parameter.default]),
) as unknown as Values;

const random = (name: string) => randomStream('swatch test', name);
const BOX = boxOf({ layout: parseLayout('drop:1/2'), width: 42, height: 30 });

type Colour = (x: number, y: number) => readonly [number, number, number, number];

function pictureOf(width: number, height: number, mm: number, colour: Colour): Picture {
  const samples = new Uint16Array(4 * width * height);
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at += 4) {
      samples.set(
        colour(x, y).map((value) => Math.round(65_535 * value)),
        at,
      );
    }
  }
  return { width, height, mmPerPixelX: mm, mmPerPixelY: mm, samples };
}

const speckled: Colour = (x, y) => {
  const light = 0.3 + 0.6 * hashUnit(3, x, y);
  return [light, 0.8 * light, 0.5, 1];
};

function grown(picture: Picture, way: 'even' | 'figured', values: Partial<Values> = {}) {
  const all = { ...DEFAULTS, ...values };
  const { level } = swatchOf(picture, all, { box: BOX, quality: 'finished', random: random('part') });
  return grownFrom(level, way);
}

function grownFrom(level: Level, way: 'even' | 'figured') {
  return grow(way, {
    levels: pyramidOf(level),
    width: level.width * level.mmPerSample,
    height: level.height * level.mmPerSample,
    box: BOX,
    turned: false,
    mirrored: false,
    quality: 'finished',
    random,
    progress: () => {},
  });
}

/** The whole box at a density of so many mm per pixel. */
function painted(of: ReturnType<typeof grow>, mm: number, count = 1) {
  const width = Math.round(BOX.width / mm);
  const height = Math.round(BOX.height / mm);
  const planes = Array.from({ length: count }, () => new Float32Array(width * height));
  paintGrown(of, { x: 0, y: 0, width, height, mmPerPixelX: mm, mmPerPixelY: mm } as never, planes);
  return { width, height, planes };
}

describe('swatches that are hardly any', () => {
  it.each<[string, Picture]>([
    ['a pixel', pictureOf(1, 1, 0.2, () => [0.4, 0.5, 0.6, 1])],
    ['three by two pixels', pictureOf(3, 2, 0.2, speckled)],
    ['fifty times as wide as high', pictureOf(500, 10, 0.2, speckled)],
    ['fifty times as high as wide', pictureOf(10, 500, 0.2, speckled)],
    ['transparent', pictureOf(80, 60, 0.2, () => [0, 0, 0, 0])],
    ['half transparent', pictureOf(80, 60, 0.2, (x, y) => [0.2, 0.3, 0.4, (x + y) % 2])],
    ['of one tone', pictureOf(80, 60, 0.2, () => [0.4, 0.5, 0.6, 1])],
    ['black', pictureOf(80, 60, 0.2, () => [0, 0, 0, 1])],
    ['smaller than a millimetre', pictureOf(20, 20, 0.04, speckled)],
    ['larger than the box by far', pictureOf(300, 200, 2, speckled)],
  ])('grow both ways and stay finite: %s', (_, picture) => {
    for (const [way, layAs] of [
      ['even', 'wash'],
      ['figured', 'colour'],
      ['even', 'shade'],
    ] as const) {
      const { planes } = painted(grown(picture, way, { layAs }), 0.5, layAs === 'colour' ? 3 : 1);
      for (const plane of planes) expect(plane.every((value) => value >= 0 && value < 1e4)).toBe(true);
    }
  });

  it('that are of one tone are told, and speckled ones are not', () => {
    const wanted = { box: BOX, quality: 'finished', random: random('part') } as const;
    const flat = pictureOf(80, 60, 0.2, () => [0.4, 0.5, 0.6, 1]);
    expect(swatchOf(flat, { ...DEFAULTS, layAs: 'colour' }, wanted).isFlat).toBe(true);
    expect(swatchOf(pictureOf(80, 60, 0.2, speckled), { ...DEFAULTS, layAs: 'colour' }, wanted).isFlat).toBe(
      false,
    );
  });
});

describe('a part', () => {
  const picture = pictureOf(200, 100, 0.5, speckled);
  it.each([
    [[0, 0, 0, 0], { x: 0, y: 0, width: 200, height: 100 }],
    [[20, 10, 30, 20], { x: 40, y: 20, width: 60, height: 40 }],
    [[20, 10, 0, 0], { x: 40, y: 20, width: 160, height: 80 }],
    [[90, 10, 30, 20], { x: 180, y: 20, width: 20, height: 40 }],
    [[1000, 1000, 1000, 1000], { x: 180, y: 80, width: 20, height: 20 }],
    [[0, 0, 2, 2], { x: 0, y: 0, width: 20, height: 20 }],
  ])('of %j mm is the pixels that lie there, 10 mm at least', (part, expected) => {
    expect(partOf(picture, part)).toEqual(expected);
  });
});

describe('what suits', () => {
  it('is blending for clouds, and joining for stripes, which run on', () => {
    const stripes = clouds(256, 0.2, 1);
    const plane = stripes.planes[0].map((value, k) => 0.2 * value + (k % 32 < 16 ? 0.1 : 0.6));
    const lostBy = (level: Level) => {
      const { outlines, runs } = measure(pyramidOf(level));
      return Math.max(outlines, runs);
    };
    expect(lostBy(clouds(256, 0.2, 2))).toBeLessThan(0.5);
    expect(lostBy({ ...stripes, planes: [plane] })).toBeGreaterThan(0.5);
  });
});

describe('75 dpi is what 300 dpi looks like from further away', () => {
  // Structural similarity: Wang et al., Image quality assessment (2004), by ssim.js.
  it.each(['even', 'figured'] as const)('grown the %s way', (way) => {
    const model = grownFrom(clouds(300, 25.4 / 300, 1.2), way);
    const [fine, coarse] = [painted(model, 25.4 / 300), painted(model, 25.4 / 75)];
    const width = Math.min(coarse.width, fine.width >> 2);
    const height = Math.min(coarse.height, fine.height >> 2);
    const grey = (light: (i: number, j: number) => number) => {
      const data = new Uint8ClampedArray(4 * width * height);
      for (let k = 0; k < width * height; k++) {
        data.fill(255 * light(k % width, Math.floor(k / width)) ** (1 / 2.2), 4 * k, 4 * k + 3);
        data[4 * k + 3] = 255;
      }
      return { data, width, height };
    };
    const near = grey((i, j) => {
      let sum = 0;
      for (let n = 0; n < 16; n++)
        sum += fine.planes[0][(4 * j + (n >> 2)) * fine.width + 4 * i + (n & 3)] / 16;
      return sum;
    });
    const far = grey((i, j) => coarse.planes[0][j * coarse.width + i]);
    const shifted = grey((i, j) => coarse.planes[0][j * coarse.width + ((i + 3) % width)]);
    expect(ssim(near as never, far as never).mssim).toBeGreaterThan(0.95);
    expect(ssim(near as never, shifted as never).mssim).toBeLessThan(0.8);
  });
});
