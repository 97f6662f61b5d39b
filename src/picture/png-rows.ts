import type { Samples } from './picture.ts';

/**
 * What a row is told by (PNG Specification, 9.2): by what each byte differs from that of the pixel to its left,
 * or from that of the pixel above it.
 */
export type Filter = 'sub' | 'up';

const FILTER_BYTES: Readonly<Record<Filter, number>> = { sub: 1, up: 2 };

/** Rows of a picture, straight RGBA, as a PNG is to hold them. */
export interface PngRows {
  readonly pixels: Samples;
  readonly width: number;
  /** Without alpha. */
  readonly opaque: boolean;
}

/** Bytes of a filtered row, its filter byte with them. */
export function filteredRowBytes({ pixels, width, opaque }: PngRows): number {
  return 1 + width * (opaque ? 3 : 4) * pixels.BYTES_PER_ELEMENT;
}

/**
 * Filters rows as a PNG holds them: a filter byte, then the differences; 16 bit with the high byte first.
 *
 * @param first  First row.
 * @param target Is filled from its start; `rows * filteredRowBytes` bytes at least.
 */
export function filterRows(
  picture: PngRows,
  first: number,
  rows: number,
  filter: Filter,
  target: Uint8Array,
): void {
  const { pixels, width, opaque } = picture;
  const rowBytes = filteredRowBytes(picture);
  for (let row = 0; row < rows; row++) {
    const from = (first + row) * width * 4;
    const filtered = target.subarray(row * rowBytes, (row + 1) * rowBytes);
    const source = pixels.subarray(from, from + width * 4);
    filtered[0] = FILTER_BYTES[filter];
    const above =
      from === 0
        ? new (pixels.constructor as Uint8ArrayConstructor)(source.length)
        : pixels.subarray(from - width * 4, from);
    if (source instanceof Uint16Array) filterWide(source, above, filter, opaque, filtered);
    else if (filter === 'up') (opaque ? upOpaque : upBytes)(source, above as Uint8Array, filtered);
    else (opaque ? subOpaque : subBytes)(source, filtered);
  }
}

/** One loop for each kind of row: they are the hottest of writing. */
function subOpaque(source: Uint8Array, target: Uint8Array): void {
  let red = 0;
  let green = 0;
  let blue = 0;
  for (let at = 0, to = 1; at < source.length; at += 4, to += 3) {
    target[to] = source[at] - red;
    target[to + 1] = source[at + 1] - green;
    target[to + 2] = source[at + 2] - blue;
    red = source[at];
    green = source[at + 1];
    blue = source[at + 2];
  }
}

function subBytes(source: Uint8Array, target: Uint8Array): void {
  target.set(source.subarray(0, 4), 1);
  for (let at = 4; at < source.length; at++) target[at + 1] = source[at] - source[at - 4];
}

function upOpaque(source: Uint8Array, above: Uint8Array, target: Uint8Array): void {
  for (let at = 0, to = 1; at < source.length; at += 4, to += 3) {
    target[to] = source[at] - above[at];
    target[to + 1] = source[at + 1] - above[at + 1];
    target[to + 2] = source[at + 2] - above[at + 2];
  }
}

function upBytes(source: Uint8Array, above: Uint8Array, target: Uint8Array): void {
  for (let at = 0; at < source.length; at++) target[at + 1] = source[at] - above[at];
}

function filterWide(
  source: Uint16Array,
  above: Samples,
  filter: Filter,
  opaque: boolean,
  target: Uint8Array,
): void {
  const channels = opaque ? 3 : 4;
  const before = [0, 0, 0, 0];
  for (let at = 0, to = 1; at < source.length; at += 4) {
    for (let channel = 0; channel < channels; channel++, to += 2) {
      const value = source[at + channel];
      const last = filter === 'up' ? above[at + channel] : before[channel];
      target[to] = (value >> 8) - (last >> 8);
      target[to + 1] = value - last;
      before[channel] = value;
    }
  }
}

/** Every so many rows are looked at before a way is chosen. */
const LOOKED_AT = 32;

/** How rows are best told. */
export interface RowChoice {
  readonly filter: Filter;
  /** The share of bytes that are like the three before them, 0..1. */
  readonly runs: number;
}

/**
 * Looks at some of the rows: the better filter is the one with the lesser sum of absolute differences (PNG
 * Specification, 12.8). It depends on the pixels alone.
 *
 * @param scratch Room for a filtered row.
 */
export function chooseFilter(picture: PngRows, first: number, rows: number, scratch: Uint8Array): RowChoice {
  const row = scratch.subarray(0, filteredRowBytes(picture));
  const found = { sub: { sum: 0, runs: 0 }, up: { sum: 0, runs: 0 } };
  let looked = 0;
  for (let at = first; at < first + rows; at += LOOKED_AT, looked += row.length) {
    for (const filter of ['sub', 'up'] as const) {
      filterRows(picture, at, 1, filter, row);
      const { sum, runs } = measureRow(row);
      found[filter].sum += sum;
      found[filter].runs += runs;
    }
  }
  const filter = found.up.sum < found.sub.sum ? 'up' : 'sub';
  return { filter, runs: found[filter].runs / looked };
}

/** The sum of its differences, without sign, and how many bytes are like the three before them. */
function measureRow(row: Uint8Array): { sum: number; runs: number } {
  let sum = 0;
  let runs = 0;
  for (let at = 1, alike = 0; at < row.length; at++) {
    const value = row[at];
    // Without a branch: half of the differences of a texture are below 0.
    const difference = (value << 24) >> 24;
    const sign = difference >> 31;
    sum += (difference ^ sign) - sign;
    alike = value === row[at - 1] ? alike + 1 : 0;
    if (alike >= 3) runs++;
  }
  return { sum, runs };
}

/** The largest prime below 65,536 (RFC 1950, 8.2). */
const ADLER_BASE = 65_521;

/** The Adler-32 check sum (RFC 1950, 8.2) of bytes that are in two parts, from the sum of each; 1 is that of none. */
export function joinAdler32(first: number, second: number, secondBytes: number): number {
  const [low, nextLow] = [first & 0xff_ff, second & 0xff_ff];
  const [high, nextHigh] = [first >>> 16, second >>> 16];
  // The second part began at 1, where the first had come to `low`: each of its bytes adds that much more to the high half.
  const lead = (low + ADLER_BASE - 1) % ADLER_BASE;
  const joinedHigh = (high + nextHigh + (secondBytes % ADLER_BASE) * lead) % ADLER_BASE;
  return joinedHigh * 65_536 + ((lead + nextLow) % ADLER_BASE);
}
