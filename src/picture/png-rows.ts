import type { Samples } from './picture.ts';

/** The filter of every row: what a pixel differs by from the one to its left (PNG Specification, 9.2). */
const SUB = 1;

/** Bytes of a filtered row, its filter byte with them. */
export function filteredRowBytes(pixels: Samples, width: number, opaque: boolean): number {
  return 1 + width * (opaque ? 3 : 4) * pixels.BYTES_PER_ELEMENT;
}

/**
 * Rows of straight RGBA as a PNG holds them: a filter byte, then every byte less that of the pixel to the
 * left; 16 bit with the high byte first, without alpha where the picture is opaque.
 *
 * @param first First row.
 * @returns `rows * filteredRowBytes` bytes.
 */
export function filterRows(
  pixels: Samples,
  width: number,
  first: number,
  rows: number,
  opaque: boolean,
): Uint8Array {
  const rowBytes = filteredRowBytes(pixels, width, opaque);
  const filtered = new Uint8Array(rows * rowBytes);
  for (let row = 0; row < rows; row++) {
    const from = (first + row) * width * 4;
    const source = pixels.subarray(from, from + width * 4);
    const target = filtered.subarray(row * rowBytes, (row + 1) * rowBytes);
    target[0] = SUB;
    if (source instanceof Uint16Array) filterWide(source, target, opaque);
    else if (opaque) filterOpaque(source, target);
    else filterBytes(source, target);
  }
  return filtered;
}

/** One loop for each kind of row: they are the hottest of writing. */
function filterOpaque(source: Uint8Array, target: Uint8Array): void {
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

function filterBytes(source: Uint8Array, target: Uint8Array): void {
  target.set(source.subarray(0, 4), 1);
  for (let at = 4; at < source.length; at++) target[at + 1] = source[at] - source[at - 4];
}

function filterWide(source: Uint16Array, target: Uint8Array, opaque: boolean): void {
  const channels = opaque ? 3 : 4;
  const before = [0, 0, 0, 0];
  for (let at = 0, to = 1; at < source.length; at += 4) {
    for (let channel = 0; channel < channels; channel++, to += 2) {
      const value = source[at + channel];
      const last = before[channel];
      target[to] = (value >> 8) - (last >> 8);
      target[to + 1] = value - last;
      before[channel] = value;
    }
  }
}

/** The largest prime below 65,536 (RFC 1950, 8.2). */
const ADLER_BASE = 65_521;
/** As many bytes as fit into 32 bits before the rest is taken (RFC 1950, 9). */
const ADLER_RUN = 5552;

/** The Adler-32 check sum of RFC 1950, gone on with from that of the bytes before; 1 before the first. */
export function adler32(bytes: Uint8Array, sum = 1): number {
  let low = sum & 0xff_ff;
  let high = sum >>> 16;
  for (let start = 0; start < bytes.length; start += ADLER_RUN) {
    const end = Math.min(start + ADLER_RUN, bytes.length);
    for (let at = start; at < end; at++) {
      low += bytes[at];
      high += low;
    }
    low %= ADLER_BASE;
    high %= ADLER_BASE;
  }
  return high * 65_536 + low;
}
