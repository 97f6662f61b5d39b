import { createCanvas, type GlobalCompositeOperation, ImageData } from '@napi-rs/canvas';
import { describe, expect, it } from 'vitest';
import { BLEND_MODES, type BlendMode } from '../colour/blend.ts';
import { decodeSrgb, encodeSrgb } from '../colour/srgb.ts';
import { layTint } from './tint.ts';
import { readBand, writeBand } from './working.ts';

/**
 * For each mode, worked by hand from W3C Compositing and Blending Level 1 with Cb = (0.8, 0.4, 0.2)
 * and Cs = (0.3, 0.6, 0.9): the result for backdrop alpha 0.75 and source alpha 0.5 (result alpha
 * 0.875); and what Skia gives, in bytes, for 80,160,240 at alpha 128 over opaque 200,100,50.
 */
const WORKED: Readonly<Record<BlendMode, readonly [mixed: number[], skia: number[]]>> = {
  normal: [
    [0.514286, 0.514286, 0.6],
    [140, 130, 145],
  ],
  multiply: [
    [0.488571, 0.36, 0.291429],
    [131, 81, 49],
  ],
  screen: [
    [0.754286, 0.582857, 0.608571],
    [209, 149, 146],
  ],
  overlay: [
    [0.694286, 0.462857, 0.368571],
    [189, 113, 72],
  ],
  darken: [
    [0.514286, 0.428571, 0.3],
    [140, 100, 50],
  ],
  lighten: [
    [0.728571, 0.514286, 0.6],
    [200, 130, 145],
  ],
  'color-dodge': [
    [0.814286, 0.685714, 0.642857],
    [228, 178, 153],
  ],
  'color-burn': [
    [0.528571, 0.257143, 0.261905],
    [140, 54, 44],
  ],
  'hard-light': [
    [0.591429, 0.48, 0.574286],
    [162, 119, 140],
  ],
  'soft-light': [
    [0.701143, 0.448496, 0.385029],
    [192, 108, 78],
  ],
  difference: [
    [0.6, 0.342857, 0.514286],
    [160, 80, 120],
  ],
  exclusion: [
    [0.651429, 0.48, 0.531429],
    [176, 116, 122],
  ],
  hue: [
    [0.495, 0.495, 0.580714],
    [132, 119, 132],
  ],
  saturation: [
    [0.728571, 0.428571, 0.3],
    [203, 99, 48],
  ],
  color: [
    [0.495, 0.495, 0.580714],
    [130, 120, 135],
  ],
  luminosity: [
    [0.747857, 0.447857, 0.319286],
    [210, 110, 60],
  ],
};

function linear(red: number, green: number, blue: number, alpha: number): Float32Array {
  return Float32Array.of(decodeSrgb(red), decodeSrgb(green), decodeSrgb(blue), alpha);
}

describe.each(BLEND_MODES)('a tint by %s', (mode) => {
  it('mixes with a translucent backdrop as worked', () => {
    const working = linear(0.8, 0.4, 0.2, 0.75);
    layTint(working, Float32Array.of(0.3, 0.6, 0.9, 0.5), mode, 1);
    WORKED[mode][0].forEach((value, channel) => {
      expect(encodeSrgb(working[channel])).toBeCloseTo(value, 5);
    });
    expect(working[3]).toBe(0.875);
  });

  it('gives the bytes Skia gives, within its rounding', () => {
    const pixel = Uint8Array.of(200, 100, 50, 255);
    const working = readBand(pixel, 0, 1, new Float32Array(4));
    layTint(working, Float32Array.of(80 / 255, 160 / 255, 240 / 255, 128 / 255), mode, 1);
    writeBand(working, 1, pixel, 0);
    WORKED[mode][1].forEach((byte, channel) => {
      expect(Math.abs(pixel[channel] - byte)).toBeLessThanOrEqual(mode === 'exclusion' ? 2 : 1);
    });
    expect(pixel[3]).toBe(255);
  });

  it('agrees with Skia at half opacity on 65,536 pairs of bytes', () => {
    const { backdrop, source, blended } = skiaPairs(mode, 0.5);
    const working = readBand(backdrop, 0, backdrop.length / 4, new Float32Array(backdrop.length));
    layTint(
      working,
      Float32Array.from(source, (byte) => byte / 255),
      mode,
      0.5,
    );
    writeBand(working, working.length / 4, backdrop, 0);
    const worst = backdrop.reduce((most, byte, at) => Math.max(most, Math.abs(byte - blended[at])), 0);
    expect(worst).toBeLessThanOrEqual(mode === 'exclusion' ? 3 : 2);
  });

  it('is the same for a pixel alone as among others', () => {
    const count = 700;
    const [working, tint] = [noise(count * 4, 1), noise(count * 4, 2)];
    for (let pixel = 0; pixel < count; pixel++) {
      if (pixel % 3 === 0) working[pixel * 4 + 3] = 1;
      if (pixel % 5 === 0) tint[pixel * 4 + 3] = 0;
    }
    const singly = working.slice();
    layTint(working, tint, mode, 0.8);
    for (let at = 0; at < count * 4; at += 4)
      layTint(singly.subarray(at, at + 4), tint.subarray(at, at + 4), mode, 0.8);
    expect(working).toEqual(singly);
  });

  it('leaves what has no tint bit for bit', () => {
    const working = noise(4000, 3);
    const before = working.slice();
    const tint = noise(4000, 4).map((value, at) => (at % 4 === 3 ? 0 : value));
    layTint(working, tint, mode, 1);
    layTint(working, noise(4000, 5), mode, 0);
    expect(working).toEqual(before);
  });

  it('takes a tint out of range for the nearest in range', () => {
    const [wild, tame] = [noise(80, 10), noise(80, 10)];
    const tint = noise(80, 11).map((value) => value * 2 - 0.5);
    layTint(wild, tint, mode, 1);
    layTint(
      tame,
      tint.map((value) => Math.min(1, Math.max(0, value))),
      mode,
      1,
    );
    expect(wild).toEqual(tame);
  });
});

describe('strength', () => {
  it('multiplies the alpha, as W3C opacity does', () => {
    const [byStrength, byAlpha, byMask] = [noise(400, 6), noise(400, 6), noise(400, 6)];
    const tint = noise(400, 7);
    layTint(byStrength, tint, 'soft-light', 0.25);
    layTint(byMask, tint, 'soft-light', new Float32Array(100).fill(0.25));
    layTint(
      byAlpha,
      tint.map((value, at) => (at % 4 === 3 ? value * 0.25 : value)),
      'soft-light',
      1,
    );
    expect(byStrength).toEqual(byAlpha);
    expect(byMask).toEqual(byAlpha);
  });

  it('may differ from pixel to pixel', () => {
    const tint = noise(2400, 12);
    const mask = noise(600, 13);
    const together = noise(2400, 14);
    const singly = together.slice();
    layTint(together, tint, 'multiply', mask);
    for (let pixel = 0; pixel < 600; pixel++) {
      const at = pixel * 4;
      layTint(singly.subarray(at, at + 4), tint.subarray(at, at + 4), 'multiply', mask[pixel]);
    }
    expect(together).toEqual(singly);
  });
});

describe('light above white', () => {
  it('passes in proportion to what the tint leaves open, without a step', () => {
    const lit = (alpha: number) => {
      const working = Float32Array.of(1.5, 1.5, 1.5, 1);
      layTint(working, Float32Array.of(0, 0, 0, alpha), 'normal', 1);
      return working[0];
    };
    expect(lit(0)).toBe(1.5);
    expect(lit(1e-6)).toBeCloseTo(1.5, 4);
    expect(lit(0.5)).toBeCloseTo(decodeSrgb(0.5) + 0.25, 5);
    expect(lit(1)).toBe(0);
  });
});

/** Numbers in 0..1, the same at each call. */
function noise(length: number, seed: number): Float32Array {
  let state = seed * 7919 + 1;
  return Float32Array.from({ length }, () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  });
}

/** Random opaque pairs, the source laid by Skia at an opacity. */
function skiaPairs(mode: BlendMode, opacity: number) {
  const side = 256;
  const [backdrop, source] = [8, 9].map((seed) => {
    const values = noise(side * side * 4, seed);
    return Uint8Array.from(values, (value, at) => (at % 4 === 3 ? 255 : Math.floor(value * 256)));
  });
  const [below, above] = [backdrop, source].map((pixels) => {
    const canvas = createCanvas(side, side);
    const data = new ImageData(Uint8ClampedArray.from(pixels), side, side);
    canvas.getContext('2d').putImageData(data, 0, 0);
    return canvas;
  });
  const context = below.getContext('2d');
  context.globalCompositeOperation = (mode === 'normal' ? 'source-over' : mode) as GlobalCompositeOperation;
  context.globalAlpha = opacity;
  context.drawImage(above, 0, 0);
  return { backdrop, source, blended: context.getImageData(0, 0, side, side).data };
}
