import { LINEAR_OF_BYTE, linearOfShortTable } from '../colour/srgb.ts';
import type { Band } from '../effect/effect.ts';
import type { PixelFinder } from '../repeat/fold.ts';
import { type Strength, strengthList } from './strength.ts';
import { type Pixels, readBand } from './working.ts';

/** The picture that paint is moved in. */
export interface ShiftSource {
  /** RGBA, `4 * width * height` samples. */
  readonly pixels: Pixels;
  readonly width: number;
  readonly height: number;
  /** Finds the pixels beyond its edges. */
  readonly find: PixelFinder;
}

const TAPS = 4;
const weightX = new Float64Array(TAPS);
const weightY = new Float64Array(TAPS);

/**
 * Reads a working band from where its paint came from: pixel + shift * strength, over the edges by
 * the repeat's wrap. Between pixels the colour is cubic (Keys, *Cubic convolution interpolation*,
 * 1981, a = -1/2), in linear light, weighted by alpha. Where nothing is shifted the pixel is read
 * unchanged.
 *
 * @param band    Lies inside the source.
 * @param shift   (dx, dy) in mm per pixel of the band.
 * @param working Receives linear RGBA, `4 * band.width * band.height` numbers.
 */
export function sampleShifted(
  source: ShiftSource,
  band: Band,
  shift: Float32Array,
  strength: Strength,
  working: Float32Array,
): void {
  const { list, step } = strengthList(strength);
  const perMmX = 1 / band.mmPerPixelX;
  const perMmY = 1 / band.mmPerPixelY;
  for (let row = 0, pixel = 0; row < band.height; row++) {
    readBand(
      source.pixels,
      ((band.y + row) * source.width + band.x) * 4,
      band.width,
      working.subarray(pixel * 4),
    );
    for (let column = 0; column < band.width; column++, pixel++) {
      const share = list[pixel * step];
      const dx = shift[pixel * 2] * share * perMmX;
      const dy = shift[pixel * 2 + 1] * share * perMmY;
      if (dx === 0 && dy === 0) continue;
      samplePoint(source, band.x + column + dx, band.y + row + dy, working, pixel * 4);
    }
  }
}

function samplePoint(source: ShiftSource, x: number, y: number, working: Float32Array, at: number): void {
  const { pixels, width, height, find } = source;
  const top = pixels.BYTES_PER_ELEMENT === 1 ? 255 : 65_535;
  const linear = pixels.BYTES_PER_ELEMENT === 1 ? LINEAR_OF_BYTE : linearOfShortTable();
  const left = Math.floor(x);
  const upper = Math.floor(y);
  cubicWeights(x - left, weightX);
  cubicWeights(y - upper, weightY);
  const inside = left >= 1 && upper >= 1 && left < width - 2 && upper < height - 2;
  let red = 0;
  let green = 0;
  let blue = 0;
  let alpha = 0;
  for (let j = 0; j < TAPS; j++) {
    for (let i = 0; i < TAPS; i++) {
      const tapX = left + i - 1;
      const tapY = upper + j - 1;
      const from = (inside ? tapY * width + tapX : find(tapX, tapY)) * 4;
      const weight = weightX[i] * weightY[j] * pixels[from + 3];
      red += weight * linear[pixels[from]];
      green += weight * linear[pixels[from + 1]];
      blue += weight * linear[pixels[from + 2]];
      alpha += weight;
    }
  }
  const scale = alpha > 0 ? 1 / alpha : 0;
  working[at] = Math.max(0, red * scale);
  working[at + 1] = Math.max(0, green * scale);
  working[at + 2] = Math.max(0, blue * scale);
  working[at + 3] = Math.min(1, Math.max(0, alpha / top));
}

function cubicWeights(t: number, weights: Float64Array): void {
  weights[0] = t * (-0.5 + t * (1 - 0.5 * t));
  weights[1] = 1 + t * t * (-2.5 + 1.5 * t);
  weights[2] = t * (0.5 + t * (2 - 1.5 * t));
  weights[3] = t * t * (-0.5 + 0.5 * t);
}
