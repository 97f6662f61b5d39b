import type { Frame } from '../colour/frame.ts';
import {
  byteOfLinear,
  clampToUnit,
  LINEAR_OF_BYTE,
  linearOfShortTable,
  shortOfLinear,
} from '../colour/srgb.ts';
import { tilePixelFinder } from '../repeat/fold.ts';
import { type Grid, gridOfPixels } from '../repeat/grid.ts';
import { shareBlank } from './frame.ts';

/** Pixels beyond the edge that a sample may need: the neighbours' own, as the layout has them. */
const MARGIN = 2;

/**
 * A tile at another density: every new pixel has the mean light of the area that it covers, which is
 * what the finer one looks like from further away. Where the new pixels are the smaller ones they are
 * drawn through the old ones' centres (Catmull and Rom 1974). Light is mixed linearly and weighted by
 * alpha; beyond an edge stands what the repeat has there, so edges that close stay closed.
 *
 * @param tile On its own grid.
 * @param grid The one asked for, of the same repeat.
 */
export function resampleTile(tile: Frame, grid: Grid): Frame {
  const { tileWidth: width, tileHeight: height } = grid;
  if (width === tile.width && height === tile.height) return tile;
  const columns = tapsOf(tile.width, width);
  const rows = tapsOf(tile.height, height);
  const readRow = rowReader(tile, gridOfTile(tile, grid));
  const pixels = shareBlank(tile.pixels, width * height * 4);
  const write = pixelWriter(pixels);
  const narrowed = new Map<number, Float32Array>();
  const sum = new Float32Array(width * 4);
  for (let y = 0; y < height; y++) {
    sum.fill(0);
    for (const { from, share } of rows[y]) {
      const row = narrowed.get(from) ?? mixRow(readRow(from), columns, new Float32Array(width * 4));
      narrowed.set(from, row);
      for (let k = 0; k < sum.length; k++) sum[k] += share * row[k];
    }
    for (const from of narrowed.keys())
      if (from < rows[Math.min(y + 1, height - 1)][0].from) narrowed.delete(from);
    write(sum, y * width);
  }
  return { pixels, width, height };
}

/** Where a drop misses the whole pixels of the old tile, its nearest do for a margin of two. */
function gridOfTile(tile: Frame, { repeat }: Grid): Grid {
  try {
    return gridOfPixels(repeat, tile.width, tile.height);
  } catch {
    return gridOfPixels(
      { ...repeat, layout: { kind: 'straight', numerator: 0, denominator: 1 } },
      tile.width,
      tile.height,
    );
  }
}

/** An old sample and its share in a new one. `from` may lie outside the tile by the margin. */
interface Tap {
  readonly from: number;
  readonly share: number;
}

function tapsOf(before: number, after: number): Tap[][] {
  const step = before / after;
  return Array.from({ length: after }, (_, index) =>
    step >= 1 ? areaTaps(index * step, (index + 1) * step) : curveTaps((index + 0.5) * step - 0.5),
  );
}

function areaTaps(start: number, end: number): Tap[] {
  const taps: Tap[] = [];
  for (let from = Math.floor(start + 1e-9); from < end - 1e-9; from++) {
    taps.push({ from, share: (Math.min(end, from + 1) - Math.max(start, from)) / (end - start) });
  }
  return taps;
}

function curveTaps(position: number): Tap[] {
  const first = Math.floor(position);
  const t = position - first;
  const shares = [
    t * (-0.5 + t * (1 - 0.5 * t)),
    1 + t * t * (-2.5 + 1.5 * t),
    t * (0.5 + t * (2 - 1.5 * t)),
    t * t * (-0.5 + 0.5 * t),
  ];
  return shares.map((share, index) => ({ from: first - 1 + index, share }));
}

/** Reads a row with its margins as linear light times alpha, and alpha. */
function rowReader({ pixels, width, height }: Frame, grid: Grid): (y: number) => Float32Array {
  const find = tilePixelFinder(grid);
  const isDeep = pixels.BYTES_PER_ELEMENT === 2;
  const linear = isDeep ? linearOfShortTable() : LINEAR_OF_BYTE;
  const top = isDeep ? 65535 : 255;
  const row = new Float32Array((width + 2 * MARGIN) * 4);
  return (y) => {
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
    for (const { from, share } of taps) {
      const source = (from + MARGIN) * 4;
      for (let channel = 0; channel < 4; channel++) mixed[x * 4 + channel] += share * row[source + channel];
    }
  });
  return mixed;
}

function pixelWriter(pixels: Frame['pixels']): (sum: Float32Array, firstPixel: number) => void {
  const isDeep = pixels.BYTES_PER_ELEMENT === 2;
  const top = isDeep ? 65535 : 255;
  const encode = isDeep ? shortOfLinear : byteOfLinear;
  return (sum, firstPixel) => {
    for (let k = 0; k < sum.length; k += 4) {
      const alpha = clampToUnit(sum[k + 3]);
      for (let channel = 0; channel < 3; channel++) {
        pixels[firstPixel * 4 + k + channel] = alpha > 0 ? encode(clampToUnit(sum[k + channel] / alpha)) : 0;
      }
      pixels[firstPixel * 4 + k + 3] = Math.round(alpha * top);
    }
  };
}
