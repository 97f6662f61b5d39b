import { uprightSize } from './decode.ts';
import { unreadable } from './faults.ts';
import { readHeader } from './header.ts';
import type { Density, Samples } from './picture.ts';
import { colouredPieces, type ReadOptions, samplesFor } from './read.ts';
import { openRegularFile } from './regular-file.ts';

/** A picture as effects have it: always of 16 bit, with what the file says of its density. */
export interface DeepPicture {
  readonly width: number;
  readonly height: number;
  /** Straight RGBA in sRGB, 0 to 65,535, in memory that workers can share. */
  readonly samples: Uint16Array;
  /** Pixels per mm of the picture as it stands upright; none where the file states none. */
  readonly density?: Density;
}

export interface DeepOptions extends ReadOptions {
  /** Told before the pixels are decoded how many bytes they will take. */
  readonly onBytes?: (bytes: number) => void;
}

/** Half a gigabyte of samples: a sheet of 640 x 640 mm at 300 dpi goes in. */
const MOST_PIXELS = 64e6;
/** Of the file: more than so many pixels take however they are packed. */
const MOST_BYTES = 1e9;
/** 8 bit as 16: 255 is 65,535. */
const DEEPER = 257;

/**
 * Reads a picture as `readPicture` does, with 16 bit whatever the file has.
 *
 * @throws Fault (input) as `readPicture` does, and for more than 64 megapixels or a file of more than 1 GB.
 */
export async function readDeepPicture(
  path: string,
  { maxPixels = MOST_PIXELS, route, onBytes }: DeepOptions = {},
): Promise<DeepPicture> {
  const header = await readHeader(path, maxPixels);
  await refuseHuge(path);
  const { width, height } = uprightSize(header);
  const length = width * height * 4;
  onBytes?.(2 * length);
  const samples = samplesFor({ ...header, bits: 16 }, length) as Uint16Array;
  let done = 0;
  for await (const piece of colouredPieces(header, route)) {
    writeDeep(piece, samples.subarray(done, (done += piece.length)));
  }
  const { density, orientation } = header;
  const isTurned = orientation >= 5;
  return { width, height, samples, density: density && isTurned ? { x: density.y, y: density.x } : density };
}

async function refuseHuge(path: string): Promise<void> {
  const { file, size } = await openRegularFile(path);
  await file.close();
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
