import { randomBytes } from 'node:crypto';
import { link, mkdir, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, extname, join } from 'node:path';
import sharp, { type Sharp } from 'sharp';
import { Fault } from '../fault.ts';

/**
 * Default PNG level. On a textured tile of 57 megapixels (medians, one run): level 1 0.7 s and
 * 97 MB, level 2 1.3 s and 71 MB, level 3 1.4 s and 64 MB.
 */
export const PNG_LEVEL = 2;

export interface WritablePicture {
  /** Straight RGBA, `4 * width * height` samples, 8 or 16 bit. */
  readonly pixels: Uint8Array | Uint16Array;
  readonly width: number;
  readonly height: number;
  readonly pixelsPerMm?: { readonly x: number; readonly y: number };
}

export interface WriteOptions {
  readonly overwrite?: boolean;
  /** PNG level 0..9. */
  readonly level?: number;
  /** Once aborted nothing appears under the name. */
  readonly signal?: AbortSignal;
}

/** Writers by file ending. */
const WRITERS: Readonly<Record<string, (image: Sharp, picture: WritablePicture, level: number) => Sharp>> = {
  '.png': (image, _picture, level) => image.png({ compressionLevel: level }),
  '.tif': writeTiff,
  '.tiff': writeTiff,
};

/**
 * Writes a PNG or TIFF, by the ending of its name, with its density; without alpha where it is
 * opaque. It is written beside and renamed: under the name there is the whole picture or nothing.
 *
 * @returns The size of the file in bytes.
 * @throws Fault (output) for an unknown ending, a name that is taken, or a file that cannot be written.
 */
export async function writePicture(
  path: string,
  picture: WritablePicture,
  { overwrite = false, level = PNG_LEVEL, signal }: WriteOptions = {},
): Promise<{ bytes: number }> {
  await refuseOverwrite(path, overwrite);
  const beside = join(dirname(path), `.${basename(path)}.${randomBytes(4).toString('hex')}.part`);
  try {
    await mkdir(dirname(path), { recursive: true });
    await encoder(path, picture, level).toFile(beside);
    if (signal?.aborted)
      throw new Fault({
        kind: 'cancelled',
        expected: 'the picture to be written',
        subject: path,
        received: 'a request to stop',
      });
    const { size } = await stat(beside);
    await putInPlace(beside, path, overwrite);
    return { bytes: size };
  } catch (cause) {
    if (Fault.is(cause)) throw cause;
    throw unwritable(path, cause);
  } finally {
    await rm(beside, { force: true }).catch(() => {});
  }
}

/**
 * Checks a name before any work is done for it.
 *
 * @throws Fault (output) for an unknown ending, or where the file is there and may not be replaced.
 */
export async function refuseOverwrite(path: string, overwrite = false): Promise<void> {
  if (!Object.hasOwn(WRITERS, extname(path).toLowerCase())) {
    throw new Fault({
      kind: 'output',
      expected: 'a name that ends in .png, .tif or .tiff',
      subject: 'the output',
      received: `"${path}"`,
      remedy: 'Give another name with --out.',
    });
  }
  const found = await stat(path).catch(() => undefined);
  if (found?.isDirectory()) throw taken(path, 'a folder of that name', 'Give another name with --out.');
  if (found && !overwrite) throw taken(path);
}

function encoder(path: string, picture: WritablePicture, level: number): Sharp {
  const { pixels, width, height, pixelsPerMm } = picture;
  const image = sharp(pixels, { raw: { width, height, channels: 4 }, limitInputPixels: false });
  if (isOpaque(pixels)) image.removeAlpha();
  if (pixels.BYTES_PER_ELEMENT === 2) image.toColourspace('rgb16');
  if (pixelsPerMm) image.withDensity(pixelsPerMm.x * 25.4);
  return WRITERS[extname(path).toLowerCase()](image, picture, level);
}

function writeTiff(image: Sharp, { pixelsPerMm }: WritablePicture): Sharp {
  const resolution = pixelsPerMm && {
    xres: pixelsPerMm.x,
    yres: pixelsPerMm.y,
    resolutionUnit: 'inch' as const,
  };
  return image.tiff({ compression: 'lzw', predictor: 'horizontal', ...resolution });
}

function isOpaque(pixels: Uint8Array | Uint16Array): boolean {
  const opaque = pixels.BYTES_PER_ELEMENT === 1 ? 255 : 65_535;
  for (let at = 3; at < pixels.length; at += 4) if (pixels[at] !== opaque) return false;
  return true;
}

/** A hard link fails where the name is taken in the meantime; a rename would replace it without a word. */
async function putInPlace(beside: string, path: string, overwrite: boolean): Promise<void> {
  if (overwrite) {
    await rename(beside, path);
    return;
  }
  try {
    await link(beside, path);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST') throw taken(path);
    // Some file systems have no hard links.
    if (code !== 'EPERM' && code !== 'ENOTSUP' && code !== 'ENOSYS') throw error;
    await rename(beside, path);
  }
}

function taken(
  path: string,
  received = 'a file of that name',
  remedy = 'Add --overwrite to replace it, or give another name with --out.',
): Fault {
  return new Fault({ kind: 'output', expected: 'a name that is free', subject: path, received, remedy });
}

function unwritable(path: string, cause: unknown): Fault {
  const message = cause instanceof Error ? cause.message.split('\n')[0] : String(cause);
  return new Fault({
    kind: 'output',
    expected: 'a place that can be written',
    subject: path,
    received: message,
    remedy: 'Nothing was written. Check the folder, its rights and the room on the disk.',
    cause,
  });
}
