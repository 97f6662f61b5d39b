import {
  byteOfLinear,
  clampToUnit,
  LINEAR_OF_BYTE,
  linearOfShortTable,
  shortOfLinear,
} from '../colour/srgb.ts';
import { cubicShares } from '../field/cubic.ts';
import type { PixelFinder } from '../repeat/fold.ts';
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
  const { width, height } = to;
  const columns = tapsOf(from.width, width);
  const rows = tapsOf(from.height, height);
  const readRow = rowReader(from);
  const write = pixelWriter(to.pixels);
  const narrowed = new Map<number, Float32Array>();
  const sum = new Float32Array(width * 4);
  for (let y = 0; y < height; y++) {
    sum.fill(0);
    for (const { at, share } of rows[y]) {
      const row = narrowed.get(at) ?? mixRow(readRow(at), columns, new Float32Array(width * 4));
      narrowed.set(at, row);
      for (let k = 0; k < sum.length; k++) sum[k] += share * row[k];
    }
    const next = rows[Math.min(y + 1, height - 1)][0].at;
    for (const at of narrowed.keys()) if (at < next) narrowed.delete(at);
    write(sum, y * width);
  }
}

/** An old sample and its share in a new one. `at` may lie outside the tile by the margin. */
interface Tap {
  readonly at: number;
  readonly share: number;
}

function tapsOf(before: number, after: number): Tap[][] {
  const step = before / after;
  return Array.from({ length: after }, (_, index) =>
    step >= AREA_FROM ? areaTaps(index * step, (index + 1) * step) : curveTaps((index + 0.5) * step - 0.5),
  );
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

/** Reads a row with its margins as linear light times alpha, and alpha. */
function rowReader({ pixels, width, height, find }: TilePixels & { readonly find: PixelFinder }) {
  const isDeep = pixels.BYTES_PER_ELEMENT === 2;
  const linear = isDeep ? linearOfShortTable() : LINEAR_OF_BYTE;
  const top = isDeep ? 65535 : 255;
  const row = new Float32Array((width + 2 * MARGIN) * 4);
  return (y: number): Float32Array => {
    for (let x = -MARGIN; x < width + MARGIN; x++) {
      const inside = x >= 0 && x < width && y >= 0 && y < height;
      const source = (inside ? y * width + x : find(x, y)) * 4;
      const target = (x + MARGIN) * 4;
      const alpha = pixels[source + 3] / top;
      for (let channel = 0; channel < 3; channel++)
        row[target + channel] = linear[pixels[source + channel]] * alpha;
      row[target + 3] = alpha;
    }
    return row;
  };
}

function mixRow(row: Float32Array, columns: readonly Tap[][], mixed: Float32Array): Float32Array {
  columns.forEach((taps, x) => {
    for (const { at, share } of taps) {
      const source = (at + MARGIN) * 4;
      for (let channel = 0; channel < 4; channel++) mixed[x * 4 + channel] += share * row[source + channel];
    }
  });
  return mixed;
}

function pixelWriter(pixels: Pixels): (sum: Float32Array, firstPixel: number) => void {
  const isDeep = pixels.BYTES_PER_ELEMENT === 2;
  const top = isDeep ? 65535 : 255;
  const encode = isDeep ? shortOfLinear : byteOfLinear;
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
