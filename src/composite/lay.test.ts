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

describe('parting', () => {
  const rose: Rgb = [0.6, 0.1, 0.3];
  const parted = (planes: Record<string, readonly number[]>, strength = 1) => {
    const working = Float32Array.of(...rose, 1);
    const layer = Object.fromEntries(
      Object.entries(planes).map(([name, plane]) => [name, Float32Array.from(plane)]),
    );
    layLayer(working, { width: 1, height: 1, ...layer }, { ...PLAIN, strength });
    return [...working];
  };
  it('gives each channel a load of its own, by the law of Beer and Lambert', () => {
    const laid = parted({ load: [1.2], parting: [0.5, -0.2, -2] });
    [0.6 ** 1.7, 0.1, 1, 1].forEach((light, channel) => {
      expect(laid[channel]).toBeCloseTo(light, 5);
    });
  });
  it('needs no load, and at no parting is load alone', () => {
    expect(parted({ parting: [0.5, 0, 0] })[0]).toBeCloseTo(0.6 ** 1.5, 5);
    expect(parted({ load: [1.4], parting: [0, 0, 0] })).toEqual(parted({ load: [1.4] }));
  });
  it('is laid at the strength of the step', () => {
    expect(parted({ load: [1], parting: [1, 0, 0] }, 0.5)[0]).toBeCloseTo(0.6 ** 1.5, 5);
  });
});

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

  /** P. Kubelka, *New contributions to the optics of intensely light-scattering materials* (1948). */
  function kubelkaMunk(absorbs: number, scatters: number, thickness: number, under: number): number {
    if (scatters === 0) return under * Math.exp(-2 * absorbs * thickness);
    const a = 1 + absorbs / scatters;
    const b = Math.sqrt(a * a - 1);
    const coth = 1 / Math.tanh(b * scatters * thickness);
    return (1 - under * (a - b * coth)) / (a - under + b * coth);
  }

  it('is Kubelka and Munk for paint that does not scatter', () => {
    // K X = 0.5 over a ground of 0.8: 0.8 e^-1.
    const laid = lay(0.2943035529, { load: [1] }, { paper: [0.8, 0.8, 0.8] });
    expect(laid).toBeCloseTo(kubelkaMunk(0.5, 0, 1, 0.8), 6);
    for (const load of [0.25, 0.5, 2, 3]) {
      const thinned = lay(0.2943035529, { load: [load] }, { paper: [0.8, 0.8, 0.8] });
      expect(thinned).toBeCloseTo(kubelkaMunk(0.5, 0, load, 0.8), 6);
    }
  });

  // K and S of red, green and blue light, from C. J. Curtis et al., *Computer-generated watercolor*
  // (1997), figure 5; over white at unit thickness they give the reflectances in the third column.
  it.each([
    ['a rose', [0.22, 1.47, 0.57], [0.05, 0.003, 0.03], [0.646119, 0.053565, 0.324216]],
    ['an ultramarine', [0.86, 0.86, 0.06], [0.005, 0.005, 0.09], [0.180087, 0.180087, 0.887302]],
    ['an umber', [0.74, 1.54, 2.1], [0.09, 0.09, 0.004], [0.24384, 0.066138, 0.015827]],
  ])('thins and thickens %s, a transparent paint, within 0.045 of Kubelka and Munk', (_, K, S, white) => {
    for (let channel = 0; channel < 3; channel++) {
      const full = kubelkaMunk(K[channel], S[channel], 1, 1);
      expect(full).toBeCloseTo(white[channel], 5);
      for (const load of [0.25, 0.5, 0.75, 1.5, 2]) {
        const exact = kubelkaMunk(K[channel], S[channel], load, 1);
        expect(Math.abs(lay(full, { load: [load] }) - exact)).toBeLessThan(0.045);
      }
    }
  });

  it('is no model of paint that covers: a body yellow over black stays dark under it', () => {
    const over = kubelkaMunk(0.1, 0.97, 1, 0);
    expect(over).toBeCloseTo(0.453888, 5);
    expect(lay(0, { load: [2] })).toBeLessThan(0.01);
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
