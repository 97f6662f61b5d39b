import { stat } from 'node:fs/promises';
import { uprightDensity, uprightSize } from './decode.ts';
import { unreadable } from './faults.ts';
import { type Header, readHeader } from './header.ts';
import type { Density, Samples } from './picture.ts';
import { colouredPieces, type ReadOptions, samplesFor } from './read.ts';

/** What a file says of a picture before it is decoded. */
export interface PictureFacts {
  /** px, upright. */
  readonly width: number;
  readonly height: number;
  /** Pixels per mm of the picture as it stands upright; none where the file states none. */
  readonly density?: Density;
}

/** A picture as effects have it: always of 16 bit. */
export interface DeepPicture extends PictureFacts {
  /** Straight RGBA in sRGB, 0 to 65,535, in memory that workers can share. */
  readonly samples: Uint16Array;
}

export interface DeepOptions extends Pick<ReadOptions, 'route'> {
  /** Told before the pixels are decoded how many bytes they will take. */
  readonly onBytes?: (bytes: number) => void;
}

/** Half a gigabyte of samples: a sheet of 640 x 640 mm at 300 dpi goes in. */
const MOST_PIXELS = 64e6;
/** Of the file: more than so many pixels take however they are packed. */
const MOST_BYTES = 1e9;
/** 8 bit as 16: 255 is 65,535. */
const DEEPER = 257;
const CHANNELS = 4;

/**
 * Looks at a picture that is to be read by `readDeepPicture`.
 *
 * @throws Fault (input) for a file that is no picture, more than 64 megapixels, or a file of more than 1 GB.
 */
export async function measurePicture(path: string): Promise<PictureFacts> {
  return factsOf(await openHeader(path));
}

/** Bytes that such a picture takes once it is read. */
export function deepBytes({ width, height }: Pick<PictureFacts, 'width' | 'height'>): number {
  return 2 * CHANNELS * width * height;
}

/**
 * Reads a picture as `readPicture` does, with 16 bit whatever the file has.
 *
 * @throws Fault (input) as `readPicture` and `measurePicture` do.
 */
export async function readDeepPicture(
  path: string,
  { route, onBytes }: DeepOptions = {},
): Promise<DeepPicture> {
  const header = await openHeader(path);
  const facts = factsOf(header);
  const bytes = deepBytes(facts);
  onBytes?.(bytes);
  const samples = samplesFor({ ...header, bits: 16 }, bytes / 2) as Uint16Array;
  let done = 0;
  for await (const piece of colouredPieces(header, route)) {
    writeDeep(piece, samples.subarray(done, (done += piece.length)));
  }
  return { ...facts, samples };
}

async function openHeader(path: string): Promise<Header> {
  const header = await readHeader(path, MOST_PIXELS);
  await refuseHuge(path);
  return header;
}

function factsOf(header: Header): PictureFacts {
  return { ...uprightSize(header), density: uprightDensity(header) };
}

async function refuseHuge(path: string): Promise<void> {
  const { size } = await stat(path);
  if (size <= MOST_BYTES) return;
  throw unreadable(path, {
    received: `a file of ${(size / 1e9).toFixed(1)} GB, where 1 GB is the most`,
    remedy: 'Cut it to the part that is needed.',
  });
}

function writeDeep(piece: Samples, to: Uint16Array): void {
  if (piece instanceof Uint16Array) to.set(piece);
  else for (let k = 0; k < to.length; k++) to[k] = piece[k] * DEEPER;
}
