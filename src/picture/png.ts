import { crc32 } from 'node:zlib';
import type { ReadAt } from './file-access.ts';
import type { Density } from './picture.ts';

/** A chunk of a PNG file (Portable Network Graphics Specification, 5.3). */
export interface Chunk {
  readonly type: string;
  /** Of the data, from the start of the file. */
  readonly offset: number;
  readonly length: number;
}

export const PNG_SIGNATURE = Buffer.from('\x89PNG\r\n\x1a\n', 'latin1');
const SIGNATURE_BYTES = PNG_SIGNATURE.length;
/** Length and type before the data. */
const CHUNK_HEAD_BYTES = 8;
const CRC_BYTES = 4;
/** A file with more chunks than this before its pixels is not looked into further. */
const MAX_CHUNKS = 1000;
/** pHYs counts pixels per metre. */
const PER_METRE = 1000;
const UNIT_METRE = 1;

/** The chunks before the pixels, in order. */
export async function chunksBeforePixels(read: ReadAt): Promise<Chunk[]> {
  const chunks: Chunk[] = [];
  let offset = SIGNATURE_BYTES;
  while (chunks.length < MAX_CHUNKS) {
    const head = await read(offset, CHUNK_HEAD_BYTES);
    if (head.length < CHUNK_HEAD_BYTES) return chunks;
    const chunk = {
      type: head.toString('latin1', 4),
      offset: offset + CHUNK_HEAD_BYTES,
      length: head.readUInt32BE(),
    };
    if (chunk.type === 'IDAT' || chunk.type === 'IEND') return chunks;
    chunks.push(chunk);
    offset = chunk.offset + chunk.length + CRC_BYTES;
  }
  return chunks;
}

/** Width and height as the header states them; undefined where it is cut short. */
export async function pngSize(read: ReadAt): Promise<{ width: number; height: number } | undefined> {
  const size = await read(SIGNATURE_BYTES + CHUNK_HEAD_BYTES, 8);
  return size.length < 8 ? undefined : { width: size.readUInt32BE(0), height: size.readUInt32BE(4) };
}

/** True where the end mark is there. Some programs append data of their own behind it. */
export async function hasPngEnd(read: ReadAt, fileBytes: number): Promise<boolean> {
  const tail = Math.min(fileBytes, 65_536);
  return (await read(fileBytes - tail, tail)).includes(chunkBytes('IEND', Buffer.alloc(0)));
}

/** The density of a pHYs chunk; undefined where it only tells the pixel's shape. */
export function densityOfPhys(data: Buffer): Density | undefined {
  if (data.length < 9 || data[8] !== UNIT_METRE) return undefined;
  return { x: data.readUInt32BE(0) / PER_METRE, y: data.readUInt32BE(4) / PER_METRE };
}

/** The data of a pHYs chunk; without a density it says that pixels are square. */
export function physOf(density: Density | undefined): Buffer {
  const data = Buffer.alloc(9);
  data.writeUInt32BE(density ? Math.round(density.x * PER_METRE) : 1, 0);
  data.writeUInt32BE(density ? Math.round(density.y * PER_METRE) : 1, 4);
  data[8] = density ? UNIT_METRE : 0;
  return data;
}

/** A whole chunk: length, type, data and check sum. */
export function chunkBytes(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const chunk = Buffer.alloc(4 + body.length + CRC_BYTES);
  chunk.writeUInt32BE(data.length, 0);
  body.copy(chunk, 4);
  chunk.writeUInt32BE(crc32(body), 4 + body.length);
  return chunk;
}
