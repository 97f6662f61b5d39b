import { describe, expect, it } from 'vitest';
import type { Rgb } from '../colour/hex.ts';
import { byteOfLinear, decodeSrgb, LINEAR_OF_BYTE } from '../colour/srgb.ts';
import { type LayOptions, layLayer } from './lay.ts';
import { LEAST_REFLECTANCE } from './load.ts';

const WHITE: Rgb = [1, 1, 1];
const PLAIN: LayOptions = { blend: 'normal', paper: WHITE, strength: 1 };

/** Lays planes over one opaque grey and answers its light. */
function lay(
  light: number,
  planes: Record<string, readonly number[]>,
  options: Partial<LayOptions> = {},
): number {
  const working = Float32Array.of(light, light, light, 1);
  const layer = Object.fromEntries(
    Object.entries(planes).map(([name, plane]) => [name, Float32Array.from(plane)]),
  );
  layLayer(working, { width: 1, height: 1, ...layer }, { ...PLAIN, ...options });
  expect([working[1], working[2], working[3]]).toEqual([working[0], working[0], 1]);
  return working[0];
}

describe('load', () => {
  // The Beer-Lambert law, T = 10^-A: absorbance is proportional to the paint there, and adds.
  it.each([
    [0.1, 0.794328],
    [0.3, 0.501187],
    [1, 0.1],
    [2, 0.01],
  ])('of unit absorbance times %f transmits %f', (absorbance, transmittance) => {
    expect(lay(0.1, { load: [absorbance] })).toBeCloseTo(transmittance, 6);
  });

  it('squares the transmittance at 2 and roots it at one half', () => {
    for (const light of [0.003, 0.05, 0.4, 0.97]) {
      expect(lay(light, { load: [2] }) / light ** 2).toBeCloseTo(1, 5);
      expect(lay(light, { load: [0.5] }) / Math.sqrt(light)).toBeCloseTo(1, 5);
    }
  });

  it('adds up: one load after another is their product', () => {
    const once = lay(0.3, { load: [1.5] });
    expect(lay(once, { load: [0.8] })).toBeCloseTo(lay(0.3, { load: [1.2] }), 6);
  });

  it('is P (R / P)^load over any paper, channel by channel', () => {
    const paper: Rgb = [0.9, 0.75, 0.5];
    const artwork = [0.2, 0.6, 0.7];
    for (const load of [0, 0.3, 0.999, 1.7, 6, 20]) {
      const working = Float32Array.of(...artwork, 0.4);
      layLayer(working, { width: 1, height: 1, load: Float32Array.of(load) }, { ...PLAIN, paper });
      artwork.forEach((light, channel) => {
        const exact = paper[channel] * (light / paper[channel]) ** load;
        expect(Math.abs(working[channel] / exact - 1)).toBeLessThan(2e-5);
      });
      expect(working[3]).toBe(Math.fround(0.4));
    }
  });

  it('shows bare paper at 0 and the artwork, bit for bit, at 1', () => {
    for (const light of [0, 1e-5, 0.2, 1]) {
      expect(lay(light, { load: [0] }, { paper: [0.8, 0.8, 0.8] })).toBeCloseTo(0.8, 5);
      expect(lay(light, { load: [1] })).toBe(Math.fround(light));
    }
  });

  it('thins black without a step on the way', () => {
    const loads = Array.from({ length: 401 }, (_, index) => index / 200);
    for (const light of [0, LEAST_REFLECTANCE / 2, LEAST_REFLECTANCE]) {
      const lights = loads.map((load) => lay(light, { load: [load] }));
      expect(lights[100]).toBeGreaterThan(0.01);
      for (let index = 1; index < lights.length; index++)
        expect(lights[index]).toBeLessThanOrEqual(lights[index - 1]);
      expect(Math.abs(lights[199] - light)).toBeLessThan(2e-5);
      expect(Math.abs(lights[201] - light)).toBeLessThan(2e-5);
    }
  });

  it('moves no byte by its tables alone', () => {
    for (let byte = 0; byte < 256; byte++)
      expect(byteOfLinear(lay(LINEAR_OF_BYTE[byte], { load: [1 + 1e-7] }))).toBe(byte);
  });
});

describe('shade', () => {
  it('multiplies light, not the stored value', () => {
    // Half the light of white is byte 188 (IEC 61966-2-1); half the stored value would be 128.
    expect(byteOfLinear(lay(1, { shade: [0.5] }))).toBe(188);
  });
  it('keeps a gleam above white', () => {
    expect(lay(0.8, { shade: [1.5] })).toBeCloseTo(1.2, 6);
  });
});

describe('a layer', () => {
  it('is laid load first, then tint, then shade', () => {
    const [load, tint, shade] = [[2], [0.2, 0.2, 0.2, 0.5], [0.5]];
    const loaded = lay(0.5, { load });
    const tinted = lay(loaded, { tint });
    expect(lay(0.5, { shade, tint, load })).toBe(lay(tinted, { shade }));
  });

  it('scales each plane by the strength', () => {
    const strength = 0.3;
    const [load, tint, shade] = [[2.5], [0.9, 0.9, 0.9, 0.8], [0.6]];
    const scaled = {
      load: [1 + 1.5 * strength],
      tint: [0.9, 0.9, 0.9, 0.8 * strength],
      shade: [1 - 0.4 * strength],
    };
    expect(lay(0.4, { load, tint, shade }, { strength })).toBeCloseTo(lay(0.4, scaled), 6);
    expect(lay(0.4, { load, tint, shade }, { strength: Float32Array.of(strength) })).toBeCloseTo(
      lay(0.4, scaled),
      6,
    );
  });

  it('masked out leaves the artwork bit for bit', () => {
    const planes = { load: [3], tint: [0.1, 0.1, 0.1, 1], shade: [0.2] };
    for (const light of [0, 0.1, 1, 1.3]) {
      expect(lay(light, planes, { strength: 0 })).toBe(Math.fround(light));
      expect(lay(light, planes, { strength: Float32Array.of(0) })).toBe(Math.fround(light));
    }
  });

  it('takes each pixel with its own strength', () => {
    const working = new Float32Array(12).fill(0.5);
    const shade = Float32Array.of(0.5, 0.5, 0.5);
    layLayer(working, { width: 3, height: 1, shade }, { ...PLAIN, strength: Float32Array.of(0, 0.5, 1) });
    expect([working[0], working[4], working[8]]).toEqual([0.5, 0.375, 0.25]);
  });

  it('without planes changes nothing', () => {
    expect(lay(0.25, {})).toBe(0.25);
  });

  it('blends the tint on encoded values', () => {
    const half = lay(decodeSrgb(0.6), { tint: [0.5, 0.5, 0.5, 1] }, { blend: 'multiply' });
    expect(half).toBeCloseTo(decodeSrgb(0.3), 6);
  });
});
