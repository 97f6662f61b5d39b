import { linearTable } from '../colour/samples.ts';
import type { Band } from '../effect/effect.ts';
import { cubicShares } from '../field/cubic.ts';
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

/** What the loop over a band needs at hand; one object, so that nothing is made per pixel. */
interface Sampler {
  readonly source: ShiftSource;
  /** The linear value of each sample. */
  readonly linear: Float32Array;
  readonly working: Float32Array;
  /** First samples of the sixteen pixels around a point, row by row. */
  readonly taps: Int32Array;
  /** Shares of their four columns and four rows. */
  readonly across: Float64Array;
  readonly down: Float64Array;
}

/**
 * Reads a working band from where its paint came from: pixel + shift * strength, over the edges by
 * the repeat's wrap.
 *
 * Between pixels the colour is cubic (Keys, *Cubic convolution interpolation*, 1981, a = -1/2), in
 * linear light, weighted by alpha, and held between the four nearest pixels: a cubic alone swings
 * past a hard edge and would draw a rim in a colour that the artwork has not got. Where nothing is
 * shifted, or by whole pixels, the pixel is read unchanged.
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
  const sampler: Sampler = {
    source,
    linear: linearTable(source.pixels),
    working,
    taps: new Int32Array(16),
    across: new Float64Array(4),
    down: new Float64Array(4),
  };
  for (let row = 0, pixel = 0; row < band.height; row++) {
    const first = ((band.y + row) * source.width + band.x) * 4;
    readBand(source.pixels, first, band.width, working.subarray(pixel * 4));
    for (let column = 0; column < band.width; column++, pixel++) {
      const dx = (shift[pixel * 2] * list[pixel * step]) / band.mmPerPixelX;
      const dy = (shift[pixel * 2 + 1] * list[pixel * step]) / band.mmPerPixelY;
      if (dx === 0 && dy === 0) continue;
      samplePoint(sampler, band.x + column + dx, band.y + row + dy, pixel * 4);
    }
  }
}

/** Reads the point (x, y), in pixels from the centre of the source's first. */
function samplePoint(sampler: Sampler, x: number, y: number, at: number): void {
  const { pixels, width, height, find } = sampler.source;
  const left = Math.floor(x);
  const upper = Math.floor(y);
  const inside = left >= 1 && upper >= 1 && left < width - 2 && upper < height - 2;
  if (inside) {
    const first = (upper * width + left) * 4;
    if (isFlat(pixels, first, first + 4, first + width * 4, first + width * 4 + 4)) {
      copyPixel(sampler, first, at);
      return;
    }
  }
  const { taps, across, down } = sampler;
  for (let tap = 0, row = upper - 1; row < upper + 3; row++) {
    for (let column = left - 1; column < left + 3; column++, tap++)
      taps[tap] = 4 * (inside ? row * width + column : find(column, row));
  }
  if (x === left && y === upper) {
    copyPixel(sampler, taps[5], at);
    return;
  }
  cubicShares(x - left, across);
  cubicShares(y - upper, down);
  interpolate(sampler, at);
}

/** Whether the four nearest pixels are one colour, as most are in artwork of flat colours. */
function isFlat(pixels: Pixels, a: number, b: number, c: number, d: number): boolean {
  for (let channel = 0; channel < 4; channel++) {
    const value = pixels[a + channel];
    if (pixels[b + channel] !== value || pixels[c + channel] !== value || pixels[d + channel] !== value)
      return false;
  }
  return true;
}

function copyPixel({ source: { pixels }, linear, working }: Sampler, from: number, at: number): void {
  working[at] = linear[pixels[from]];
  working[at + 1] = linear[pixels[from + 1]];
  working[at + 2] = linear[pixels[from + 2]];
  working[at + 3] = pixels[from + 3] / (linear.length - 1);
}

function interpolate({ source: { pixels }, linear, working, taps, across, down }: Sampler, at: number): void {
  let red = 0;
  let green = 0;
  let blue = 0;
  let alpha = 0;
  for (let tap = 0; tap < 16; tap++) {
    const from = taps[tap];
    const share = across[tap & 3] * down[tap >> 2] * pixels[from + 3];
    red += share * linear[pixels[from]];
    green += share * linear[pixels[from + 1]];
    blue += share * linear[pixels[from + 2]];
    alpha += share;
  }
  const [a, b, c, d] = [taps[5], taps[6], taps[9], taps[10]];
  const [coverA, coverB, coverC, coverD] = [pixels[a + 3], pixels[b + 3], pixels[c + 3], pixels[d + 3]];
  const cover = held(alpha, coverA, coverB, coverC, coverD);
  if (cover === 0) {
    working.fill(0, at, at + 4);
    return;
  }
  for (let channel = 0; channel < 3; channel++) {
    const value = channel === 0 ? red : channel === 1 ? green : blue;
    const light = held(
      value,
      coverA * linear[pixels[a + channel]],
      coverB * linear[pixels[b + channel]],
      coverC * linear[pixels[c + channel]],
      coverD * linear[pixels[d + channel]],
    );
    working[at + channel] = light / cover;
  }
  working[at + 3] = cover / (linear.length - 1);
}

/** The value, held between the least and the greatest of four. */
function held(value: number, a: number, b: number, c: number, d: number): number {
  const least = Math.min(Math.min(a, b), Math.min(c, d));
  const greatest = Math.max(Math.max(a, b), Math.max(c, d));
  return Math.min(Math.max(value, least), greatest);
}
