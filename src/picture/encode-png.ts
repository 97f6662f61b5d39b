import { open } from 'node:fs/promises';
import { crc32, deflateSync } from 'node:zlib';
import { type DeflatedPiece, deflatePiece, STREAM_END, STREAM_HEAD } from './deflate-piece.ts';
import { writeAllFully } from './file-access.ts';
import type { Density } from './picture.ts';
import { chunkBytes, PNG_SIGNATURE, physOf } from './png.ts';
import { filteredRowBytes, joinAdler32, layRows, type PngRows } from './png-rows.ts';

/** Filtered bytes of a piece: so many that what a piece costs more than a stream is a thousandth, and its memory little. */
const PIECE_BYTES = 1 << 20;
/** Pieces that zlib has under way at a time: as many as the system's threads for such work, and one more. */
const UNDER_WAY = 5;
const COLOUR_RGB = 2;
const COLOUR_RGBA = 6;

export interface PngPicture extends PngRows {
  readonly height: number;
  readonly density: Density | undefined;
  /** An ICC profile. */
  readonly profile: Buffer;
  /** 0 to 9. */
  readonly level: number;
}

/**
 * Writes a PNG whose pixels are deflated piece by piece: each ends at a flush point, so that one after the other they
 * are one stream, as RFC 1951 has it. The bytes of the file depend on the pixels alone.
 *
 * @param path An empty file.
 */
export async function encodePng(path: string, picture: PngPicture): Promise<void> {
  const file = await open(path, 'r+');
  try {
    let offset = 0;
    for await (const parts of partsOf(picture)) offset += await writeAllFully(file, parts, offset);
  } finally {
    await file.close();
  }
}

async function* partsOf(picture: PngPicture): AsyncGenerator<readonly Buffer[]> {
  const { density, profile } = picture;
  const named = Buffer.concat([Buffer.from('sRGB\0\0', 'latin1'), deflateSync(profile)]);
  yield [
    PNG_SIGNATURE,
    chunkBytes('IHDR', headerOf(picture)),
    chunkBytes('iCCP', named),
    chunkBytes('pHYs', physOf(density)),
  ];
  let sum = 1;
  let head = [STREAM_HEAD];
  for await (const { piece, filteredBytes } of piecesOf(picture)) {
    sum = joinAdler32(sum, piece.sum, filteredBytes);
    yield dataChunk([...head, ...piece.parts]);
    head = [];
  }
  const tail = Buffer.alloc(4);
  tail.writeUInt32BE(sum);
  yield [...dataChunk([STREAM_END, tail]), chunkBytes('IEND', Buffer.alloc(0))];
}

function headerOf({ pixels, width, height, opaque }: PngPicture): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8 * pixels.BYTES_PER_ELEMENT, opaque ? COLOUR_RGB : COLOUR_RGBA], 8);
  return header;
}

/** An IDAT chunk around data that is not copied. */
function dataChunk(data: readonly Buffer[]): Buffer[] {
  const head = Buffer.from('\0\0\0\0IDAT', 'latin1');
  head.writeUInt32BE(data.reduce((sum, { length }) => sum + length, 0));
  const check = Buffer.alloc(4);
  check.writeUInt32BE(data.reduce((sum, part) => crc32(part, sum), crc32(head.subarray(4))));
  return [head, ...data, check];
}

interface Piece {
  readonly piece: DeflatedPiece;
  /** Bytes that it was made of. */
  readonly filteredBytes: number;
}

/** The pieces of all pixels, in order. */
async function* piecesOf(picture: PngPicture): AsyncGenerator<Piece> {
  const { height, level } = picture;
  const rowBytes = filteredRowBytes(picture);
  const rows = Math.max(1, Math.floor(PIECE_BYTES / rowBytes));
  const underWay: Promise<Piece>[] = [];
  for (let first = 0; first < height; first += rows) {
    const count = Math.min(rows, height - first);
    const laid = layRows(picture, first, count);
    const { filter, runs } = laid.choose();
    const filtered = laid.filter(filter);
    const filteredBytes = count * rowBytes;
    if (isFast(level)) {
      yield { piece: laid.deflate(runs >= WORTH_RUNS), filteredBytes };
      continue;
    }
    const deflating = deflatePiece(filtered.slice(), { level, memLevel: 9 });
    underWay.push(deflating.then((piece) => ({ piece, filteredBytes })));
    // Whoever awaits it hears of it; a piece that fails before that must not end the process.
    underWay.at(-1)!.catch(() => {});
    if (underWay.length > UNDER_WAY) yield await underWay.shift()!;
  }
  while (underWay.length > 0) yield await underWay.shift()!;
}

/** Runs are looked for where at least this share of a piece are some: a flat ground that is not woven. */
const WORTH_RUNS = 1 / 16;

/**
 * At these levels no more than runs are looked for, and not even these where there are hardly any: the shortest codes
 * for the single bytes then say all. That is done by a kernel of our own; all else by zlib.
 */
function isFast(level: number): boolean {
  return level === 1 || level === 2;
}
