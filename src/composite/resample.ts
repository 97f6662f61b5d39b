import { fullSample, linearTable, sampleOfLinear } from '../colour/samples.ts';
import { clampToUnit } from '../colour/srgb.ts';
import { cubicShares } from '../field/cubic.ts';
import type { PixelFinder } from '../repeat/fold.ts';
import type { Patch } from '../repeat/patch.ts';
import type { Pixels } from './working.ts';

/** A tile's pixels: RGBA, `4 * width * height` samples. */
export interface TilePixels {
  readonly pixels: Pixels;
  readonly width: number;
  readonly height: number;
}

/** Pixels beyond the edge that a new one may need: the neighbours' own, as the layout has them. */
const MARGIN = 2;
/**
 * From so many old pixels to a new one on, the new one is a mean over its area. Where the two are nearly
 * as wide, means would be sharp here and soft there, in a beat; the cubic stays as sharp all over.
 */
const AREA_FROM = 1.1;

/** A tile that others are drawn from. */
export interface TileSource extends TilePixels {
  /** Four samples a pixel, RGBA, or one: an amount, as the alpha of white. */
  readonly channels: 1 | 4;
  /** Finds the pixels beyond its edges. */
  readonly find: PixelFinder;
}

/**
 * Draws a tile in another number of pixels: every new one has the mean light of the area that it covers,
 * which is what the finer one looks like from further away. Where the new pixels are the smaller ones, or
 * hardly larger, a cubic is drawn through the old ones' centres (`cubicShares`). Light is mixed linearly
 * and weighted by alpha; beyond an edge stands what the repeat has there, so edges that close stay closed.
 *
 * @param from The tile, and how to find the pixels beyond its edges.
 * @param to   Of the same bits a sample; every sample of it is written.
 */
export function resample(from: TilePixels & { readonly find: PixelFinder }, to: TilePixels): void {
  resamplePart({ ...from, channels: 4 }, to, { x: 0, y: 0, width: to.width, height: to.height }, to.pixels);
}

/**
 * Draws a rectangle of the tile that `resample` draws: the same samples, to the bit.
 *
 * @param size   Pixels of the whole new tile.
 * @param part   Inside it.
 * @param pixels Receives the rectangle; of as many channels and bits as `from`.
 */
export function resamplePart(
  from: TileSource,
  size: { readonly width: number; readonly height: number },
  part: Patch,
  pixels: Pixels,
): void {
  const { width, height } = part;
  const columns = tapsOf(from.width, size.width, part.x, width);
  const rows = tapsOf(from.height, size.height, part.y, height);
  const readRow = rowReader(from, columns);
  const write = pixelWriter(pixels, from.channels);
  const narrowed = new Map<number, Float32Array>();
  const sum = new Float32Array(width * 4);
  for (let y = 0; y < height; y++) {
    sum.fill(0);
    for (let tap = rows.first[y]; tap < rows.first[y + 1]; tap++) {
      const at = rows.at[tap];
      const share = rows.share[tap];
      const row = narrowed.get(at) ?? mixRow(readRow(at), columns, new Float32Array(width * 4));
      narrowed.set(at, row);
      for (let k = 0; k < sum.length; k++) sum[k] += share * row[k];
    }
    const next = rows.at[rows.first[Math.min(y + 1, height - 1)]];
    for (const at of narrowed.keys()) if (at < next) narrowed.delete(at);
    write(sum, y * width);
  }
}

/** Which old samples each new one is mixed from, and their shares. `at` may lie outside the tile by the margin. */
interface Taps {
  /** Where the taps of each new sample begin, and the end of the last. */
  readonly first: Int32Array;
  readonly at: Int32Array;
  readonly share: Float64Array;
}

interface Tap {
  readonly at: number;
  readonly share: number;
}

function tapsOf(before: number, after: number, from: number, count: number): Taps {
  const step = before / after;
  const taps = Array.from({ length: count }, (_, k) => {
    const index = from + k;
    return step >= AREA_FROM
      ? areaTaps(index * step, (index + 1) * step)
      : curveTaps((index + 0.5) * step - 0.5);
  });
  const first = new Int32Array(count + 1);
  for (const [k, list] of taps.entries()) first[k + 1] = first[k] + list.length;
  const flat = taps.flat();
  return {
    first,
    at: Int32Array.from(flat, ({ at }) => at),
    share: Float64Array.from(flat, ({ share }) => share),
  };
}

function areaTaps(start: number, end: number): Tap[] {
  const taps: Tap[] = [];
  for (let at = Math.floor(start + 1e-9); at < end - 1e-9; at++) {
    taps.push({ at, share: (Math.min(end, at + 1) - Math.max(start, at)) / (end - start) });
  }
  return taps;
}

function curveTaps(position: number): Tap[] {
  const first = Math.floor(position);
  if (position === first) return [{ at: first, share: 1 }];
  const shares = cubicShares(position - first, new Float64Array(4));
  return Array.from(shares, (share, index) => ({ at: first - 1 + index, share }));
}

/** Reads what the columns need of a row, with its margins, as linear light times alpha, and alpha. */
function rowReader({ pixels, width, height, channels, find }: TileSource, { at }: Taps) {
  const linear = linearTable(pixels);
  const top = fullSample(pixels);
  const row = new Float32Array((width + 2 * MARGIN) * 4);
  let [start, end] = [width, 0];
  for (const column of at) {
    start = Math.min(start, column);
    end = Math.max(end, column + 1);
  }
  return (y: number): Float32Array => {
    for (let x = start; x < end; x++) {
      const inside = x >= 0 && x < width && y >= 0 && y < height;
      const source = (inside ? y * width + x : find(x, y)) * channels;
      const target = (x + MARGIN) * 4;
      if (channels === 1) {
        row[target + 3] = pixels[source] / top;
        continue;
      }
      const alpha = pixels[source + 3] / top;
      row[target] = linear[pixels[source]] * alpha;
      row[target + 1] = linear[pixels[source + 1]] * alpha;
      row[target + 2] = linear[pixels[source + 2]] * alpha;
      row[target + 3] = alpha;
    }
    return row;
  };
}

/** Every sum is rounded to single precision at each step, as all pictures so far were. */
function mixRow(row: Float32Array, { first, at, share }: Taps, mixed: Float32Array): Float32Array {
  const fround = Math.fround;
  for (let x = 0, to = 0; to < mixed.length; x++, to += 4) {
    let [red, green, blue, alpha] = [0, 0, 0, 0];
    for (let tap = first[x]; tap < first[x + 1]; tap++) {
      const source = (at[tap] + MARGIN) * 4;
      const part = share[tap];
      red = fround(red + part * row[source]);
      green = fround(green + part * row[source + 1]);
      blue = fround(blue + part * row[source + 2]);
      alpha = fround(alpha + part * row[source + 3]);
    }
    mixed[to] = red;
    mixed[to + 1] = green;
    mixed[to + 2] = blue;
    mixed[to + 3] = alpha;
  }
  return mixed;
}

function pixelWriter(pixels: Pixels, channels: 1 | 4): (sum: Float32Array, firstPixel: number) => void {
  const top = fullSample(pixels);
  const encode = sampleOfLinear(pixels);
  if (channels === 1)
    return (sum, firstPixel) => {
      for (let k = 3, at = firstPixel; k < sum.length; k += 4, at++)
        pixels[at] = Math.round(clampToUnit(sum[k]) * top);
    };
  return (sum, firstPixel) => {
    for (let k = 0; k < sum.length; k += 4) {
      // Not held to 1 before: where the cubic swings past full cover, so does the light.
      const alpha = sum[k + 3];
      for (let channel = 0; channel < 3; channel++)
        pixels[firstPixel * 4 + k + channel] = alpha > 0 ? encode(clampToUnit(sum[k + channel] / alpha)) : 0;
      pixels[firstPixel * 4 + k + 3] = Math.round(clampToUnit(alpha) * top);
    }
  };
}
