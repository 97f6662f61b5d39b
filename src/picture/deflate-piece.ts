import { once } from 'node:events';
import { constants, createDeflate, type ZlibOptions } from 'node:zlib';

/** A piece of a deflated stream that others may follow: it ends at a flush point (RFC 1951, 3.2.4). */
export interface DeflatedPiece {
  /** In as many parts as zlib gave. */
  readonly parts: readonly Buffer[];
  /** The Adler-32 check sum of what was deflated. */
  readonly sum: number;
}

/** Of a whole stream, before its first piece: deflate with a window of 32 kB, nothing preset (RFC 1950, 2.2). */
export const STREAM_HEAD = Buffer.from([0x78, 0x01]);
/** After its last piece: a last block with nothing in it, of fixed codes (RFC 1951, 3.2.6). The check sum follows. */
export const STREAM_END = Buffer.from([0x03, 0x00]);

/** What zlib writes of a last block with nothing in it, where it stores and where it deflates, and the sum behind it. */
const STORED_END_BYTES = 5;
const SUM_BYTES = 4;
/** A piece of noise grows by its stored blocks' heads, and by what stands around the stream. */
const GROWTH_BYTES = 4096;

/**
 * Deflates one piece on a thread of the system's. The piece is taken out of a whole stream of its own, whose check
 * sum zlib counts many times as fast as a script.
 *
 * @param bytes Are read meanwhile: leave them alone.
 */
export async function deflatePiece(bytes: Uint8Array, how: ZlibOptions): Promise<DeflatedPiece> {
  // One block of memory for all that comes out.
  const stream = createDeflate({ ...how, chunkSize: bytes.length + (bytes.length >> 6) + GROWTH_BYTES });
  const parts: Buffer[] = [];
  stream.on('data', (part) => parts.push(part));
  const end = once(stream, 'end');
  stream.write(bytes);
  // Asked to end at once it would leave the flush out.
  stream.flush(constants.Z_SYNC_FLUSH, () => stream.end());
  await end;
  const length = parts.reduce((bytes, part) => bytes + part.length, 0);
  const endBytes = how.level === 0 ? STORED_END_BYTES : STREAM_END.length;
  const sum = Buffer.concat(partsWithin(parts, length - SUM_BYTES, length)).readUInt32BE();
  return { parts: partsWithin(parts, STREAM_HEAD.length, length - endBytes - SUM_BYTES), sum };
}

/** What of a block in parts lies from one byte of it to another; not copied. */
function partsWithin(parts: readonly Buffer[], from: number, to: number): Buffer[] {
  let start = 0;
  const within = parts.map((part) => {
    const cut = part.subarray(Math.max(0, from - start), Math.max(0, to - start));
    start += part.length;
    return cut;
  });
  return within.filter(({ length }) => length > 0);
}
