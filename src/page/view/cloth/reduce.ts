import { byteOfLinear, LINEAR_OF_BYTE } from '../../../colour/index.ts';

/** Straight RGBA, 8 bit, row by row. */
export interface Pixels {
  readonly data: Uint8ClampedArray<ArrayBuffer>;
  readonly width: number;
  readonly height: number;
}

/** The samples that one sample of the smaller picture averages. */
interface Span {
  readonly first: number;
  /** Their shares; together 1. */
  readonly shares: readonly number[];
}

/**
 * A picture on fewer pixels, each the mean of the area that it covers, in linear light as the eye takes the
 * mean of what is too fine for it. What stands at one edge stays at it, so that a picture that repeats still does.
 */
export function reduced({ data, width, height }: Pixels, toWidth: number, toHeight: number): Pixels {
  const columns = spansOf(width, toWidth);
  const rows = spansOf(height, toHeight);
  const small = new Uint8ClampedArray(toWidth * toHeight * 4);
  const lines = new Map<number, Float32Array>();
  rows.forEach(({ first, shares }, row) => {
    for (const known of lines.keys()) if (known < first) lines.delete(known);
    const sum = new Float32Array(toWidth * 4);
    shares.forEach((share, index) => {
      const at = first + index;
      const line = lines.get(at) ?? lineOf(data, at * width * 4, columns);
      lines.set(at, line);
      for (let i = 0; i < sum.length; i++) sum[i] += line[i] * share;
    });
    writeLine(sum, small, row * toWidth * 4);
  });
  return { data: small, width: toWidth, height: toHeight };
}

/** One row narrowed: light times cover, and cover. */
function lineOf(data: Uint8ClampedArray, start: number, columns: readonly Span[]): Float32Array {
  const line = new Float32Array(columns.length * 4);
  for (let column = 0; column < columns.length; column++) {
    const { first, shares } = columns[column];
    const to = column * 4;
    for (let index = 0; index < shares.length; index++) {
      const from = start + (first + index) * 4;
      const cover = (data[from + 3] / 255) * shares[index];
      line[to] += LINEAR_OF_BYTE[data[from]] * cover;
      line[to + 1] += LINEAR_OF_BYTE[data[from + 1]] * cover;
      line[to + 2] += LINEAR_OF_BYTE[data[from + 2]] * cover;
      line[to + 3] += cover;
    }
  }
  return line;
}

function writeLine(sum: Float32Array, small: Uint8ClampedArray, start: number): void {
  for (let i = 0; i < sum.length; i += 4) {
    const cover = sum[i + 3];
    if (cover === 0) continue;
    for (let c = 0; c < 3; c++) small[start + i + c] = byteOfLinear(Math.min(1, sum[i + c] / cover));
    small[start + i + 3] = Math.round(cover * 255);
  }
}

function spansOf(from: number, to: number): Span[] {
  return Array.from({ length: to }, (_, index) => {
    const begin = (index * from) / to;
    const end = ((index + 1) * from) / to;
    const first = Math.floor(begin + 1e-9);
    const last = Math.max(first + 1, Math.ceil(end - 1e-9));
    const shares = Array.from({ length: last - first }, (_, step) => {
      const reach = Math.min(end, first + step + 1) - Math.max(begin, first + step);
      return reach / (end - begin);
    });
    return { first, shares };
  });
}
