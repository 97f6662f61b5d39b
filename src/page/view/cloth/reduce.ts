import { byteOfLinear, LINEAR_OF_BYTE } from '../../../colour/index.ts';

/** Straight RGBA, 8 bit, row by row. */
export interface Pixels {
  readonly data: Uint8ClampedArray<ArrayBuffer>;
  readonly width: number;
  readonly height: number;
}

/** The samples that each sample of a smaller row or column averages: numbers in a row, for they are read often. */
interface Spans {
  readonly count: number;
  /** Of each, the first that it averages. */
  readonly firsts: Int32Array;
  /** Where the shares of each begin, and behind the last. */
  readonly starts: Int32Array;
  /** Those of each are together 1. */
  readonly shares: Float64Array;
}

/**
 * A picture on fewer pixels, each the mean of the area that it covers, in linear light as the eye takes the
 * mean of what is too fine for it. What stands at one edge stays at it, so that a picture that repeats still does.
 */
export function reduced({ data, width, height }: Pixels, toWidth: number, toHeight: number): Pixels {
  const columns = spansOf(width, toWidth);
  const rows = spansOf(height, toHeight);
  const small = new Uint8ClampedArray(toWidth * toHeight * 4);
  const sum = new Float64Array(toWidth * 4);
  const line = new Float64Array(toWidth * 4);
  let lineAt = -1;
  for (let row = 0; row < toHeight; row++) {
    sum.fill(0);
    for (let index = rows.starts[row]; index < rows.starts[row + 1]; index++) {
      const at = rows.firsts[row] + index - rows.starts[row];
      // The last line of one row may be the first of the next.
      if (at !== lineAt) narrow(data, at * width * 4, columns, line);
      lineAt = at;
      const share = rows.shares[index];
      for (let i = 0; i < sum.length; i++) sum[i] += line[i] * share;
    }
    writeLine(sum, small, row * toWidth * 4);
  }
  return { data: small, width: toWidth, height: toHeight };
}

/** One row narrowed: light times cover, and cover. */
function narrow(data: Uint8ClampedArray, start: number, columns: Spans, line: Float64Array): void {
  const { count, firsts, starts, shares } = columns;
  for (let column = 0; column < count; column++) {
    let from = start + firsts[column] * 4;
    let [red, green, blue, cover] = [0, 0, 0, 0];
    for (let index = starts[column]; index < starts[column + 1]; index++, from += 4) {
      const share = (data[from + 3] / 255) * shares[index];
      red += LINEAR_OF_BYTE[data[from]] * share;
      green += LINEAR_OF_BYTE[data[from + 1]] * share;
      blue += LINEAR_OF_BYTE[data[from + 2]] * share;
      cover += share;
    }
    const to = column * 4;
    line[to] = red;
    line[to + 1] = green;
    line[to + 2] = blue;
    line[to + 3] = cover;
  }
}

function writeLine(sum: Float64Array, small: Uint8ClampedArray, start: number): void {
  for (let i = 0; i < sum.length; i += 4) {
    const cover = sum[i + 3];
    if (cover === 0) continue;
    for (let c = 0; c < 3; c++) small[start + i + c] = byteOfLinear(Math.min(1, sum[i + c] / cover));
    small[start + i + 3] = Math.round(cover * 255);
  }
}

function spansOf(from: number, to: number): Spans {
  const firsts = new Int32Array(to);
  const starts = new Int32Array(to + 1);
  const shares: number[] = [];
  for (let index = 0; index < to; index++) {
    const begin = (index * from) / to;
    const end = ((index + 1) * from) / to;
    const first = Math.floor(begin + 1e-9);
    const last = Math.max(first + 1, Math.ceil(end - 1e-9));
    firsts[index] = first;
    for (let at = first; at < last; at++) {
      shares.push((Math.min(end, at + 1) - Math.max(begin, at)) / (end - begin));
    }
    starts[index + 1] = shares.length;
  }
  return { count: to, firsts, starts, shares: Float64Array.from(shares) };
}
