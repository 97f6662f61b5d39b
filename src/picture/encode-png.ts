import { open } from 'node:fs/promises';
import { constants, crc32, deflateSync, type ZlibOptions } from 'node:zlib';
import { type DeflatedPiece, deflatePiece, STREAM_END, STREAM_HEAD } from './deflate-piece.ts';
import { writeAllFully } from './file-access.ts';
import type { Density } from './picture.ts';
import { chunkBytes, PNG_SIGNATURE, physOf } from './png.ts';
import { chooseFilter, filteredRowBytes, filterRows, joinAdler32, type PngRows } from './png-rows.ts';

/** Filtered bytes of a piece: so many that what a piece costs more than a stream is a thousandth. */
const PIECE_BYTES = 1 << 20;
/** Pieces under way at a time: as many as the system's threads for such work, and one more. */
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
 * Writes a PNG whose pixels are deflated piece by piece, several at a time: each ends at a flush point, so
 * that one after the other they are one stream, as RFC 1951 has it. The pieces do not depend on how many
 * threads there are, nor do the bytes of the file.
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
  // Room for each piece that is under way, used again and again.
  const rooms: Uint8Array[] = [];
  for (let first = 0, index = 0; first < height; first += rows, index++) {
    const room = (rooms[index % (UNDER_WAY + 1)] ??= new Uint8Array(Math.min(rows, height) * rowBytes));
    const count = Math.min(rows, height - first);
    const { filter, runs } = chooseFilter(picture, first, count, room);
    filterRows(picture, first, count, filter, room);
    const filtered = room.subarray(0, count * rowBytes);
    const deflating = deflatePiece(filtered, deflateOptions(level, runs)).then((piece) => ({
      piece,
      filteredBytes: filtered.length,
    }));
    // Whoever awaits it hears of it; a piece that fails before that must not end the process.
    deflating.catch(() => {});
    underWay.push(deflating);
    if (underWay.length > UNDER_WAY) yield await underWay.shift()!;
  }
  while (underWay.length > 0) yield await underWay.shift()!;
}

/** Runs are looked for where at least this share of a piece are some: a flat ground that is not woven. */
const WORTH_RUNS = 1 / 16;

/**
 * Up to level 2 no more than runs are looked for, and not even these where there are hardly any: the shortest codes
 * for the single bytes then say all. Of a linen of 21 megapixels a search of level 2 takes 1.25 s of processor time for
 * 41 MB, runs 0.71 s for 45 MB, codes alone 0.55 s for as many; of salt it is 0.24 s and 7.0 MB, 0.16 s and 7.4 MB.
 */
function deflateOptions(level: number, runs: number): ZlibOptions {
  const isFast = level === 1 || level === 2;
  const strategy = !isFast
    ? constants.Z_DEFAULT_STRATEGY
    : runs < WORTH_RUNS
      ? constants.Z_HUFFMAN_ONLY
      : constants.Z_RLE;
  return { level, strategy, memLevel: 9 };
}
