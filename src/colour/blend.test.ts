import { createCanvas, type GlobalCompositeOperation, ImageData } from '@napi-rs/canvas';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BLEND_MODES, type BlendMode, blendColours } from './blend.ts';
import type { Rgb } from './hex.ts';

/**
 * B(Cb, Cs) for Cb = (0.8, 0.4, 0.2) and Cs = (0.3, 0.6, 0.9), worked by hand from the formulas of
 * W3C Compositing and Blending Level 1, sections 10.1 and 10.2.
 */
const WORKED: Readonly<Record<BlendMode, Rgb>> = {
  normal: [0.3, 0.6, 0.9],
  multiply: [0.24, 0.24, 0.18],
  screen: [0.86, 0.76, 0.92],
  overlay: [0.72, 0.48, 0.36],
  darken: [0.3, 0.4, 0.2],
  lighten: [0.8, 0.6, 0.9],
  'color-dodge': [1, 1, 1],
  'color-burn': [0.333333, 0, 0.111111],
  'hard-light': [0.48, 0.52, 0.84],
  'soft-light': [0.736, 0.446491, 0.3984],
  difference: [0.5, 0.2, 0.7],
  exclusion: [0.62, 0.52, 0.74],
  hue: [0.255, 0.555, 0.855],
  saturation: [0.8, 0.4, 0.2],
  color: [0.255, 0.555, 0.855],
  luminosity: [0.845, 0.445, 0.245],
};

const unit = fc.double({ min: 0, max: 1, noNaN: true });
const anyColour = fc.tuple(unit, unit, unit);

describe.each(BLEND_MODES)('%s', (mode) => {
  it('gives the worked values', () => {
    const answer = blendColours(mode, [0.8, 0.4, 0.2], [0.3, 0.6, 0.9]);
    answer.forEach((value, channel) => {
      expect(value).toBeCloseTo(WORKED[mode][channel], 6);
    });
  });

  it('stays in range', () => {
    fc.assert(
      fc.property(anyColour, anyColour, (backdrop, source) => {
        for (const value of blendColours(mode, backdrop, source)) {
          expect(value).toBeGreaterThanOrEqual(-1e-12);
          expect(value).toBeLessThanOrEqual(1 + 1e-12);
        }
      }),
      { seed: 1, numRuns: 500, endOnFailure: true },
    );
  });

  // Skia, through @napi-rs/canvas, rounds to bytes on its way; exclusion more than the others.
  it('agrees with Skia on 65,536 pairs of bytes', () => {
    const { backdrop, source, blended } = skiaPairs(mode);
    let worst = 0;
    for (let pixel = 0; pixel < backdrop.length; pixel += 4) {
      const ours = blendColours(mode, colourAt(backdrop, pixel), colourAt(source, pixel));
      for (let channel = 0; channel < 3; channel++)
        worst = Math.max(worst, Math.abs(ours[channel] * 255 - blended[pixel + channel]));
    }
    expect(worst).toBeLessThan(mode === 'exclusion' ? 3 : 2);
  });
});

// W3C Compositing and Blending Level 1, 10.1.7 and 10.1.8: which limit wins where both are met.
describe('where a limit is met', () => {
  it('dodges a black backdrop to black and burns a white one to white', () => {
    expect(blendColours('color-dodge', [0, 0, 0.5], [1, 0.5, 1])).toEqual([0, 0, 1]);
    expect(blendColours('color-burn', [1, 1, 0.5], [0, 0.5, 0])).toEqual([1, 1, 0]);
  });
  it('takes the lower branch at one half and one quarter', () => {
    expect(blendColours('hard-light', [0.3, 0.3, 0.3], [0.5, 0.5, 0.5])).toEqual([0.3, 0.3, 0.3]);
    expect(blendColours('soft-light', [0.25, 0.6, 0.6], [1, 0.5, 0.5])).toEqual([0.5, 0.6, 0.6]);
  });
  it('gives a grey no hue', () => {
    const [red, green, blue] = blendColours('hue', [0.8, 0.4, 0.2], [0.5, 0.5, 0.5]);
    expect([green, blue]).toEqual([red, red]);
  });
});

function colourAt(pixels: Uint8ClampedArray, at: number): Rgb {
  return [pixels[at] / 255, pixels[at + 1] / 255, pixels[at + 2] / 255];
}

/** Random opaque pairs, every sixteenth channel at a limit, blended by Skia. */
function skiaPairs(mode: BlendMode) {
  const side = 256;
  let state = 12_345;
  const next = () => (state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0) >>> 8;
  const picture = () => {
    const pixels = new Uint8ClampedArray(side * side * 4);
    for (let at = 0; at < pixels.length; at++) {
      const value = next() & 255;
      pixels[at] = at % 4 === 3 ? 255 : next() % 16 === 0 ? (value & 1) * 255 : value;
    }
    return pixels;
  };
  const [backdrop, source] = [picture(), picture()];
  const canvases = [backdrop, source].map((pixels) => {
    const canvas = createCanvas(side, side);
    canvas.getContext('2d').putImageData(new ImageData(pixels, side, side), 0, 0);
    return canvas;
  });
  const context = canvases[0].getContext('2d');
  context.globalCompositeOperation = (mode === 'normal' ? 'source-over' : mode) as GlobalCompositeOperation;
  context.drawImage(canvases[1], 0, 0);
  return { backdrop, source, blended: context.getImageData(0, 0, side, side).data };
}
