import { crc32, deflateSync } from 'node:zlib';

/**
 * PNG files from bytes, by the Portable Network Graphics Specification, independent of the code
 * under test and of its engine.
 */
export interface PngParts {
  readonly width: number;
  readonly height: number;
  readonly depth: 1 | 2 | 4 | 8 | 16;
  /** 0 grey, 2 RGB, 3 palette, 4 grey with alpha, 6 RGBA. */
  readonly colour: 0 | 2 | 3 | 4 | 6;
  /** Packed samples without filter bytes, row by row; 16 bit with the high byte first. */
  readonly rows: Uint8Array;
  /** Chunks between header and pixels. */
  readonly chunks?: readonly Buffer[];
}

export function pngFile({ width, height, depth, colour, rows, chunks = [] }: PngParts): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([depth, colour], 8);
  const stride = rows.length / height;
  const filtered = Array.from({ length: height }, (_, y) =>
    Buffer.concat([Buffer.from([0]), rows.subarray(y * stride, (y + 1) * stride)]),
  );
  return Buffer.concat([
    Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'),
    pngChunk('IHDR', header),
    ...chunks,
    pngChunk('IDAT', deflateSync(Buffer.concat(filtered))),
    pngChunk('IEND', Buffer.alloc(0)),
  ]);
}

/** A PNG whose header claims a size that its pixels do not have. */
export function pngThatClaims(width: number, height: number): Buffer {
  const file = pngFile({ width: 1, height: 1, depth: 8, colour: 2, rows: new Uint8Array(3) });
  const header = Buffer.from(file.subarray(16, 29));
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  pngChunk('IHDR', header).copy(file, 8);
  return file;
}

export function pngChunk(type: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}

export function profileChunk(profile: Uint8Array): Buffer {
  return pngChunk('iCCP', Buffer.concat([Buffer.from('test\0\0', 'latin1'), deflateSync(profile)]));
}

/** pHYs: pixels per unit across and down, unit 1 metre, 0 unknown (11.3.4.3). */
export function densityChunk(across: number, down: number, unit: 0 | 1): Buffer {
  const data = Buffer.alloc(9);
  data.writeUInt32BE(across, 0);
  data.writeUInt32BE(down, 4);
  data[8] = unit;
  return pngChunk('pHYs', data);
}

/** The chunks of a file, with their check sums tested. */
export function chunksOf(file: Buffer): { type: string; data: Buffer }[] {
  const chunks = [];
  for (let at = 8; at < file.length; ) {
    const length = file.readUInt32BE(at);
    const body = file.subarray(at + 4, at + 8 + length);
    if (crc32(body) !== file.readUInt32BE(at + 8 + length)) throw new Error(`wrong check sum at ${at}`);
    chunks.push({ type: body.toString('latin1', 0, 4), data: body.subarray(4) });
    at += 12 + length;
  }
  return chunks;
}

/** Samples with the high byte first, as PNG stores 16 bit. */
export function highByteFirst(samples: ArrayLike<number>): Buffer {
  const bytes = Buffer.alloc(samples.length * 2);
  for (let index = 0; index < samples.length; index++) bytes.writeUInt16BE(samples[index], index * 2);
  return bytes;
}
