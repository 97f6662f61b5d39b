import type { Band } from '../effect/effect.ts';
import type { PixelFinder } from '../repeat/fold.ts';
import { LEAST_REFLECTANCE } from './load.ts';
import { exponential, LOGARITHMS, logarithmOfBits, OCTAVES, POWERS } from './power.ts';
import { logarithmOfTone, type SoftLevel, toneOfLogarithm } from './soft-level.ts';
import { type Strength, strengthList } from './strength.ts';

/** Positive floats stand in the order of their bits. */
const LEAST_BITS = new Int32Array(Float32Array.of(LEAST_REFLECTANCE).buffer)[0];
/** Cover 1 as a sample. */
const FULL_COVER = 65_535;
/** A spread below this, in pixels squared, is not seen. */
const LEAST_VARIANCE = 1e-4;

/** Where paint runs, in the order in which it is done. */
export interface Running {
  /** How far the paint has run into its neighbours, mm of standard deviation, one per pixel. */
  readonly bleed: Float32Array;
  /** (dx, dy) in mm per pixel, where the layer has it: the paint that runs is that which came from there. */
  readonly shift?: Float32Array;
  readonly strength: Strength;
}

/**
 * Lets the paint of a working band run into its neighbours, in place: each pixel becomes a mean of the
 * amounts of paint around it (the logarithm of light, by Beer-Lambert's law), weighed by a Gaussian of
 * `bleed` mm. Nothing is lost but light: where bleed is even, the mean amount of paint stays. Where it
 * is 0, or all that it would be mixed with is what it is itself, the pixel is left as it is, to the bit.
 *
 * The Gaussian is read from the two levels of the stack whose spreads lie about it, mixed so that the
 * variance is right; below the first level from the band itself and the first level. An edge differs
 * from the normal distribution by at most 0.04 of its height, and by 0.01 at the levels' own spreads.
 *
 * @param stack   The artwork, softer from level to level; beyond the last one bleeding stops.
 * @param size    Pixels of the artwork, across and down.
 * @param working Linear RGBA as read for the band, `4 * band.width * band.height` numbers.
 */
export function layBleed(
  working: Float32Array,
  stack: readonly SoftLevel[],
  size: { readonly width: number; readonly height: number },
  band: Band,
  { bleed, shift, strength }: Running,
): void {
  const { list, step } = strengthList(strength);
  const bits = new Int32Array(working.buffer, working.byteOffset, working.length);
  const levels = stack.map((level) => openLevel(level, size));
  // Of the spread of each level, in pixels of the artwork squared.
  const variances = Float64Array.from(levels, ({ scale }) => 1 / (scale[0] * scale[1]));
  const point: Point = { place: new Float64Array(2), sum: new Float64Array(4), part: new Float64Array(1) };
  const own: Own = { light: new Float32Array(4).fill(Number.NaN), tones: new Float64Array(4) };
  const perPixel = 1 / (band.mmPerPixelX * band.mmPerPixelY);
  for (let row = 0, pixel = 0; row < band.height; row++) {
    for (let column = 0; column < band.width; column++, pixel++) {
      const strong = list[pixel * step];
      const spread = bleed[pixel] * strong;
      const variance = spread * spread * perPixel;
      if (!(variance > LEAST_VARIANCE)) continue;
      point.place[0] = band.x + column + 0.5 + (shift ? (shift[pixel * 2] * strong) / band.mmPerPixelX : 0);
      point.place[1] = band.y + row + 0.5 + (shift ? (shift[pixel * 2 + 1] * strong) / band.mmPerPixelY : 0);
      let upper = 0;
      while (upper < levels.length && variances[upper] < variance) upper++;
      if (upper < levels.length && isFlat(levels[upper], point.place)) {
        weighOwn(own, working, bits, pixel * 4);
        if (
          holds(levels[upper], point.place, own) &&
          (upper === 0 || holds(levels[upper - 1], point.place, own))
        )
          continue;
      }
      point.sum[0] = 0;
      point.sum[1] = 0;
      point.sum[2] = 0;
      point.sum[3] = 0;
      const below = upper > 0 ? variances[upper - 1] : 0;
      const part = upper < levels.length ? (variance - below) / (variances[upper] - below) : 0;
      point.part[0] = part;
      if (upper < levels.length) addLevel(levels[upper], point);
      point.part[0] = 1 - part;
      if (upper > 0) addLevel(levels[upper - 1], point);
      else addPixel(working, bits, pixel * 4, point);
      settle(point.sum, working, pixel * 4);
    }
  }
}

/**
 * A point that is read. Its numbers stand in arrays, for a fraction handed to a function is put into
 * fresh memory each time, which took half of the time.
 */
interface Point {
  /** x and y in pixels of the artwork. */
  readonly place: Float64Array;
  /** The share of the level that is read next. */
  readonly part: Float64Array;
  /** Tones times cover, and cover. */
  readonly sum: Float64Array;
}

/** A level with its scale. The numbers stand in arrays for the reason given at `Point`. */
interface OpenLevel {
  readonly samples: Uint16Array;
  readonly width: number;
  readonly height: number;
  readonly find: PixelFinder;
  /** Cells to a pixel of the artwork, across and down. */
  readonly scale: Float64Array;
}

function openLevel(level: SoftLevel, { width, height }: { width: number; height: number }): OpenLevel {
  const { samples, find } = level;
  const scale = Float64Array.of(level.width / width, level.height / height);
  return { samples, width: level.width, height: level.height, find, scale };
}

/** A pixel as the levels would hold it. The last one is kept, for in flat colours the next is the same. */
interface Own {
  readonly light: Float32Array;
  /** Tones times cover, and cover, 0 to 65535. */
  readonly tones: Float64Array;
}

function weighOwn({ light, tones }: Own, working: Float32Array, bits: Int32Array, at: number): void {
  if (
    working[at] === light[0] &&
    working[at + 1] === light[1] &&
    working[at + 2] === light[2] &&
    working[at + 3] === light[3]
  )
    return;
  const cover = working[at + 3];
  for (let channel = 0; channel < 3; channel++) {
    light[channel] = working[at + channel];
    tones[channel] = cover * toneOfBits(bits[at + channel]);
  }
  light[3] = cover;
  tones[3] = cover * FULL_COVER;
}

function toneOfBits(bits: number): number {
  return toneOfLogarithm(logarithmOfBits(LOGARITHMS, Math.max(bits, LEAST_BITS)));
}

function addPixel(working: Float32Array, bits: Int32Array, at: number, { part, sum }: Point): void {
  const weight = part[0] * working[at + 3];
  sum[0] += weight * toneOfBits(bits[at]);
  sum[1] += weight * toneOfBits(bits[at + 1]);
  sum[2] += weight * toneOfBits(bits[at + 2]);
  sum[3] += weight * FULL_COVER;
}

/** Reads a level at a point of the artwork by a quadratic spline over nine cells. */
function addLevel(level: OpenLevel, { place, part, sum }: Point): void {
  const { samples, width, height, find, scale } = level;
  const across = place[0] * scale[0] - 0.5;
  const down = place[1] * scale[1] - 0.5;
  const column = Math.floor(across + 0.5);
  const row = Math.floor(down + 0.5);
  const tX = across - column;
  const tY = down - row;
  const left = 0.5 * (0.5 - tX) * (0.5 - tX);
  const right = 0.5 * (0.5 + tX) * (0.5 + tX);
  const between = 1 - left - right;
  const isInside = column >= 1 && row >= 1 && column < width - 1 && row < height - 1;
  let red = 0;
  let green = 0;
  let blue = 0;
  let cover = 0;
  for (let j = -1; j < 2; j++) {
    const share =
      j < 0 ? 0.5 * (0.5 - tY) * (0.5 - tY) : j > 0 ? 0.5 * (0.5 + tY) * (0.5 + tY) : 0.75 - tY * tY;
    const b = 4 * (isInside ? (row + j) * width + column : find(column, row + j));
    const a = isInside ? b - 4 : 4 * find(column - 1, row + j);
    const c = isInside ? b + 4 : 4 * find(column + 1, row + j);
    red += share * (left * samples[a] + between * samples[b] + right * samples[c]);
    green += share * (left * samples[a + 1] + between * samples[b + 1] + right * samples[c + 1]);
    blue += share * (left * samples[a + 2] + between * samples[b + 2] + right * samples[c + 2]);
    cover += share * (left * samples[a + 3] + between * samples[b + 3] + right * samples[c + 3]);
  }
  sum[0] += part[0] * red;
  sum[1] += part[0] * green;
  sum[2] += part[0] * blue;
  sum[3] += part[0] * cover;
}

/**
 * Whether a level is one tone around a place, as over most of an artwork of flat colours: the corners
 * of the nine cells that are read then hold what their middle holds. Stripes as wide as its cells look
 * so too, so it also matters whether the pixel itself `holds` that tone.
 */
function isFlat({ samples, width, height, scale }: OpenLevel, place: Float64Array): boolean {
  const column = Math.floor(place[0] * scale[0]);
  const row = Math.floor(place[1] * scale[1]);
  if (column < 1 || row < 1 || column >= width - 1 || row >= height - 1) return false;
  const middle = 4 * (row * width + column);
  const below = 4 * width;
  for (let at = middle; at < middle + 4; at++) {
    const tone = samples[at];
    if (samples[at - below - 4] !== tone || samples[at - below + 4] !== tone) return false;
    if (samples[at + below - 4] !== tone || samples[at + below + 4] !== tone) return false;
  }
  return true;
}

/** Whether the cell of a level over a place, inside the picture, holds what the pixel holds, but for rounding. */
function holds({ samples, width, scale }: OpenLevel, place: Float64Array, { tones }: Own): boolean {
  const middle = 4 * (Math.floor(place[1] * scale[1]) * width + Math.floor(place[0] * scale[0]));
  for (let channel = 0; channel < 4; channel++)
    if (Math.abs(samples[middle + channel] - tones[channel]) >= 1) return false;
  return true;
}

/** Turns summed tones back into light. */
function settle(sum: Float64Array, working: Float32Array, at: number): void {
  const cover = sum[3] / FULL_COVER;
  if (cover <= 0) return;
  for (let channel = 0; channel < 3; channel++)
    working[at + channel] = exponential(POWERS, OCTAVES, logarithmOfTone(sum[channel] / cover));
  working[at + 3] = Math.min(1, cover);
}
