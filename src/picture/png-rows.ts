import { SLACK, theKernel } from './deflate.ts';
import type { DeflatedPiece } from './deflate-piece.ts';
import type { Samples } from './picture.ts';

/**
 * What a row is told by (PNG Specification, 9.2): by what each byte differs from that of the pixel to its left,
 * or from that of the pixel above it.
 */
export type Filter = 'sub' | 'up';

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

/** Every so many rows are looked at before a way is chosen. */
const LOOKED_AT = 32;

/** How rows are best told. */
export interface RowChoice {
  readonly filter: Filter;
  /** The share of bytes that are like the three before them, 0..1. */
  readonly runs: number;
}

/** Rows in the memory of the kernel, until others are laid there. */
export interface LaidRows {
  /**
   * Looks at some of the rows: the better filter is the one with the lesser sum of absolute differences (PNG
   * Specification, 12.8). It depends on the pixels alone.
   */
  choose(): RowChoice;
  /**
   * Filters them as a PNG holds them: a filter byte, then the differences; 16 bit with the high byte first.
   *
   * @returns `rows * filteredRowBytes` bytes, which lie there until others are filtered.
   */
  filter(filter: Filter): Uint8Array;
  /** Deflates what was filtered last. */
  deflate(withRuns: boolean): DeflatedPiece;
}

/** Lays rows of a picture, and the one above them, where they can be filtered and deflated. */
export function layRows(picture: PngRows, first: number, rows: number): LaidRows {
  const { pixels, width, opaque } = picture;
  const kernel = theKernel();
  const pixelBytes = 4 * pixels.BYTES_PER_ELEMENT;
  const laidBytes = width * pixelBytes;
  const rowBytes = filteredRowBytes(picture);
  const bytes = rows * rowBytes;
  const above = kernel.firstByte;
  const filtered = above + (rows + 1) * laidBytes + SLACK;
  const deflated = filtered + bytes + SLACK;
  const memory = kernel.open(deflated + bytes + (bytes >> 3) + 1024 + SLACK);
  const samples = pixels.subarray(Math.max(0, first - 1) * width * 4, (first + rows) * width * 4);
  if (first === 0) memory.fill(0, above, above + laidBytes);
  memory.set(bytesOf(samples), first === 0 ? above + laidBytes : above);
  const filterRow = pixelBytes === 4 ? kernel.filterBytes : kernel.filterShorts;
  const fill = (row: number, filter: Filter, to: number) => {
    const source = above + (row + 1) * laidBytes;
    const isSub = filter === 'sub';
    filterRow(source, source - (isSub ? pixelBytes : laidBytes), width, isSub, opaque, to);
  };
  return {
    choose() {
      const found = { sub: { sum: 0, runs: 0 }, up: { sum: 0, runs: 0 } };
      let looked = 0;
      for (let row = 0; row < rows; row += LOOKED_AT, looked += rowBytes) {
        for (const filter of ['sub', 'up'] as const) {
          fill(row, filter, filtered);
          const { differences, alike } = kernel.measure(filtered, rowBytes);
          found[filter].sum += differences;
          found[filter].runs += alike;
        }
      }
      const filter = found.up.sum < found.sub.sum ? 'up' : 'sub';
      return { filter, runs: found[filter].runs / looked };
    },
    filter(filter) {
      for (let row = 0; row < rows; row++) fill(row, filter, filtered + row * rowBytes);
      return memory.subarray(filtered, filtered + bytes);
    },
    deflate(withRuns) {
      const length = kernel.deflate(filtered, bytes, deflated, withRuns);
      const part = Buffer.from(memory.subarray(deflated, deflated + length));
      return { parts: [part], sum: kernel.adler32(filtered, bytes) };
    },
  };
}

function bytesOf({ buffer, byteOffset, byteLength }: Samples): Uint8Array {
  return new Uint8Array(buffer, byteOffset, byteLength);
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
