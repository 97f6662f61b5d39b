import { describe, expect, it } from 'vitest';
import { decodeSrgb, encodeSrgb } from '../colour/srgb.ts';
import { hashUnit } from '../field/hash.ts';
import type { LitPicture } from './lit-picture.ts';
import { divideLight, slowLight } from './slow-light.ts';

const SIDE = 320;

type Light = (u: number, v: number) => number;

/** Linear light of a texture, times a known slow light; u and v run -1..1. */
function picture(
  texture: (x: number, y: number) => number,
  light: Light = () => 1,
  bits: 8 | 16 = 16,
): LitPicture {
  const full = bits === 16 ? 65_535 : 255;
  const samples = bits === 16 ? new Uint16Array(4 * SIDE * SIDE) : new Uint8Array(4 * SIDE * SIDE);
  for (let y = 0; y < SIDE; y++)
    for (let x = 0; x < SIDE; x++) {
      const value = texture(x, y) * light((2 * x + 1) / SIDE - 1, (2 * y + 1) / SIDE - 1);
      const at = 4 * (x + y * SIDE);
      samples.fill(Math.round(full * encodeSrgb(Math.min(1, value))), at, at + 3);
      samples[at + 3] = full - (x % 2);
    }
  return { width: SIDE, height: SIDE, mmPerPixelX: 0.25, mmPerPixelY: 0.25, samples };
}

const grain = (x: number, y: number) => 0.55 + 0.1 * (hashUnit(7, x, y) - 0.5);
/** Dark blobs, thick in the one corner and none in the other. */
const motifs = (x: number, y: number) => {
  const inBlob = Math.hypot((x % 40) - 20, (y % 40) - 20) < 19 - (x + y) / 25;
  return inBlob ? 0.08 : grain(x, y);
};
const falling: Light = (u, v) => Math.exp(-0.12 * u + 0.05 * v - 0.1 * (u * u + v * v));

/** Root mean square of what is left of the light after dividing, in natural logarithms, over places that the light changed. */
function leftOver(lit: LitPicture, even: LitPicture): number {
  const evened = divideLight(lit, slowLight(lit));
  const full = even.samples instanceof Uint16Array ? 65_535 : 255;
  let [sum, squares, count] = [0, 0, 0];
  for (let at = 0; at < evened.length; at += 4) {
    const off = Math.log(decodeSrgb(evened[at] / full) / decodeSrgb(even.samples[at] / full));
    sum += off;
    squares += off * off;
    count++;
  }
  return Math.sqrt(squares / count - (sum / count) ** 2);
}

describe('slow light', () => {
  it('finds a known field on grain within half a per cent', () => {
    expect(leftOver(picture(grain, falling), picture(grain))).toBeLessThan(0.005);
  });
  it('is not misled by motifs that lie thicker on one side, within one per cent', () => {
    expect(leftOver(picture(motifs, falling), picture(motifs))).toBeLessThan(0.01);
  });
  it('keeps the mean light within a thousandth', () => {
    const lit = picture(grain, falling);
    const evened = divideLight(lit, slowLight(lit));
    const mean = (samples: ArrayLike<number>) => {
      let sum = 0;
      for (let at = 0; at < samples.length; at += 4) sum += decodeSrgb(samples[at] / 65_535);
      return sum / (samples.length / 4);
    };
    expect(Math.abs(mean(evened) / mean(lit.samples) - 1)).toBeLessThan(0.001);
  });
  it('leaves alpha alone', () => {
    const lit = picture(grain, falling, 8);
    const evened = divideLight(lit, slowLight(lit));
    const alphas = (samples: ArrayLike<number>) => Array.from(samples).filter((_, k) => k % 4 === 3);
    expect(alphas(evened)).toEqual(alphas(lit.samples));
  });
  it.each([
    ['grain', grain],
    ['motifs', motifs],
    ['one colour', () => 0.4],
    ['black', () => 0],
  ])('leaves an even picture of %s as it is, the very samples', (_, texture) => {
    const even = picture(texture);
    expect(slowLight(even)).toMatchObject({ isEven: true, range: 1 });
    expect(divideLight(even, slowLight(even))).toBe(even.samples);
  });
  it('leaves alone what is faster than the length', () => {
    const waves = picture(
      () => 0.5,
      (u) => 1 + 0.1 * Math.sin(20 * Math.PI * u),
    );
    expect(slowLight(waves).range).toBe(1);
  });
  it('finds the colour of a light where asked', () => {
    const lit = picture(grain);
    for (let at = 0; at < lit.samples.length; at += 4) {
      const u = (2 * ((at / 4) % SIDE) + 1) / SIDE - 1;
      lit.samples[at + 2] = 65_535 * encodeSrgb(decodeSrgb(lit.samples[at + 2] / 65_535) * (1 - 0.2 * u));
    }
    const light = slowLight(lit, { channels: 'each' });
    expect(light.range).toBeCloseTo(1.2 / 0.8, 1);
    const evened = divideLight(lit, light);
    for (const x of [2, 317]) {
      const at = 4 * (x + 160 * SIDE);
      expect(decodeSrgb(evened[at + 2] / 65_535) / decodeSrgb(evened[at] / 65_535)).toBeCloseTo(1, 1);
    }
  });
  it('takes a picture of one pixel, and of one column', () => {
    for (const height of [1, 50]) {
      const samples = new Uint8Array(4 * height).fill(99);
      const line = { width: 1, height, mmPerPixelX: 1, mmPerPixelY: 1, samples };
      expect(slowLight(line).isEven).toBe(true);
    }
  });
  it('refuses a length of nothing, and samples that do not fit', () => {
    expect(() => slowLight(picture(grain), { length: 0 })).toThrow('above 0 mm');
    expect(() => slowLight({ ...picture(grain), width: 7 })).toThrow('8960 samples');
  });
});
