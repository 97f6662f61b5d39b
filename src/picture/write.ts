import { stat } from 'node:fs/promises';
import { extname } from 'node:path';
import type { Sharp } from 'sharp';
import { Fault } from '../fault.ts';
import { type PlaceOptions, refuseTaken, writeAllBeside } from './beside.ts';
import { encodePng } from './encode-png.ts';
import { sharp } from './engine.ts';
import { unwritable } from './faults.ts';
import { isOpaque } from './opaque.ts';
import type { Bits, Density, Samples } from './picture.ts';
import { srgbProfile, stampJpeg, stampTiff } from './stamp.ts';
import { requireWritable } from './writable.ts';

/** Default PNG level: what it costs stands in tests/bench/TRIED.md. */
export const PNG_LEVEL = 2;

export interface WritablePicture {
  /** Straight RGBA in sRGB, `4 * width * height` samples. They are read where they lie; leave them alone meanwhile. */
  readonly pixels: Samples;
  readonly width: number;
  readonly height: number;
  /** Must fit `pixels`, where it is given. */
  readonly bits?: Bits;
  /** Whether no pixel lets anything through, where that is known; else all are looked at. */
  readonly isOpaque?: boolean;
  /** Pixels per mm. Without it the file states none. */
  readonly pixelsPerMm?: Density | number;
}

export interface WriteOptions extends PlaceOptions {
  /** PNG level 0..9; more is smaller and slower. */
  readonly level?: number;
}

export interface Written {
  /** Size of the file. */
  readonly bytes: number;
  /** True where the picture had no transparency and was written without alpha. */
  readonly opaque: boolean;
}

type Format = 'PNG' | 'TIFF' | 'JPEG';

const FORMATS: Readonly<Record<string, Format>> = {
  '.png': 'PNG',
  '.tif': 'TIFF',
  '.tiff': 'TIFF',
  '.jpg': 'JPEG',
  '.jpeg': 'JPEG',
};

/** For proofs to look at: with colours as fine as the light, so that thin red on white does not smear. */
export const JPEG_QUALITY = 92;
/** The header of a JPEG counts its sides with 16 bits. */
const MAX_JPEG_SIDE = 65_535;

/** A classic TIFF counts its bytes with 32 bits; compression may lengthen noise by half. */
const MAX_TIFF_BYTES = 2 ** 32 / 1.5;
/** pHYs counts pixels per metre with 31 bits. */
const MAX_PER_MM = 2 ** 31 / 1000;

/**
 * Writes a PNG, a TIFF or, as a proof of 8 bit, a JPEG, by the ending of its name, with density and sRGB
 * profile; without alpha where the picture is opaque. Under the name there is then the whole picture, or what was there
 * before. An abort takes effect when the engine has come to its end, and leaves nothing.
 *
 * @throws Fault (output) for an unknown ending, a name that is taken, a JPEG of a picture with transparency,
 *   or a file that cannot be written; Fault (usage) for a picture or level that is not one; Fault (cancelled).
 */
export async function writePicture(
  path: string,
  picture: WritablePicture,
  options: WriteOptions = {},
): Promise<Written> {
  const [written] = await writePictures([{ path, picture }], options);
  return written;
}

/** Writes several pictures as `writePicture` writes one: all of them, or none. */
export async function writePictures(
  pictures: readonly { readonly path: string; readonly picture: WritablePicture }[],
  { level = PNG_LEVEL, ...place }: WriteOptions = {},
): Promise<Written[]> {
  for (const { path, picture } of pictures) checkPicture(path, picture, formatFor(path));
  checkLevel(level);
  const files = pictures.map(({ path, picture }) => ({
    path,
    fill: async (beside: string) => {
      const opaque = picture.isOpaque ?? isOpaque(picture.pixels);
      await encode(path, beside, picture, { format: formatFor(path), level, opaque });
      return { bytes: (await stat(beside)).size, opaque };
    },
  }));
  return writeAllBeside(files, place);
}

/**
 * Checks a name before any work is done for it.
 *
 * @throws Fault (output) for an unknown ending, where the file is there and may not be replaced, or
 *   where no file can be made.
 */
export async function refuseOverwrite(path: string, overwrite = false): Promise<void> {
  formatFor(path);
  await refuseTaken(path, overwrite);
  await requireWritable(path);
}

interface Encoding {
  readonly format: Format;
  readonly level: number;
  readonly opaque: boolean;
}

async function encode(path: string, beside: string, picture: WritablePicture, how: Encoding): Promise<void> {
  const density = densityOf(picture);
  if (how.format === 'PNG') {
    await encodePng(beside, { ...picture, ...how, density, profile: await srgbProfile() });
    return;
  }
  const image = rawImage(picture, how);
  const encoder =
    how.format === 'TIFF'
      ? tiffOf(image, picture, density)
      : image.jpeg({ quality: JPEG_QUALITY, chromaSubsampling: '4:4:4' });
  await encoder.toFile(beside).catch((cause) => {
    // The engine passes the system's reason on as text only.
    const full = /no space left|quota exceeded/i.test(cause.message);
    throw unwritable(path, cause, full ? 'a disk that is full' : 'a failure to write');
  });
  await (how.format === 'TIFF' ? stampTiff : stampJpeg)(beside, density);
}

function rawImage({ pixels, width, height }: WritablePicture, { opaque, format }: Encoding): Sharp {
  const image = sharp(pixels, { raw: { width, height, channels: 4 }, limitInputPixels: false });
  if (opaque) image.removeAlpha();
  return pixels instanceof Uint16Array && format !== 'JPEG' ? image.toColourspace('rgb16') : image;
}

/**
 * LZW, which every reader of TIFF 6.0 knows. Of 16 bit it makes textures longer (a linen of 4
 * megapixels: 30 MB, as it is 24 MB, by deflate 22 MB in 20 times the time), so these stay as they are.
 */
function tiffOf(image: Sharp, { pixels }: WritablePicture, density: Density | undefined): Sharp {
  const resolution = density && { xres: density.x, yres: density.y };
  const compression = pixels instanceof Uint8Array ? 'lzw' : 'none';
  return image.tiff({ compression, predictor: 'horizontal', resolutionUnit: 'inch', ...resolution });
}

function densityOf({ pixelsPerMm }: WritablePicture): Density | undefined {
  return typeof pixelsPerMm === 'number' ? { x: pixelsPerMm, y: pixelsPerMm } : pixelsPerMm;
}

function formatFor(path: string): Format {
  const format = FORMATS[extname(path).toLowerCase()];
  if (format) return format;
  throw new Fault({
    kind: 'output',
    expected: 'a name that ends in .png, .tif, .tiff or .jpg',
    subject: 'the output',
    received: `"${path}"`,
    remedy: 'Give another name with --out.',
  });
}

function checkPicture(path: string, picture: WritablePicture, format: Format): void {
  const { pixels, width, height, bits = 8 * pixels.BYTES_PER_ELEMENT } = picture;
  const whole = Number.isInteger(width) && Number.isInteger(height) && width > 0 && height > 0;
  if (!whole || pixels.length !== 4 * width * height || bits !== 8 * pixels.BYTES_PER_ELEMENT) {
    const received = `${pixels.length} samples of ${8 * pixels.BYTES_PER_ELEMENT} bit`;
    throw unfit(path, `4 samples of ${bits} bit for each of ${width} x ${height} px`, received);
  }
  if (format === 'TIFF' && pixels.byteLength > MAX_TIFF_BYTES) {
    throw unfit(
      path,
      'a picture that fits into the 4 GB of a TIFF',
      `${width} x ${height} px of ${bits} bit`,
    );
  }
  if (format === 'JPEG') requireJpeg(path, picture);
  const density = densityOf(picture);
  const fine = (value: number) => value > 0 && value <= MAX_PER_MM;
  if (density && !(fine(density.x) && fine(density.y))) {
    throw unfit(path, 'a density of more than 0 pixels per mm', `${density.x} across, ${density.y} down`);
  }
}

function requireJpeg(path: string, { pixels, width, height, isOpaque: known }: WritablePicture): void {
  if (Math.max(width, height) > MAX_JPEG_SIDE) {
    throw unfit(path, `sides of at most ${MAX_JPEG_SIDE} px in a JPEG`, `${width} x ${height} px`);
  }
  if (known ?? isOpaque(pixels)) return;
  throw new Fault({
    kind: 'output',
    expected: 'a picture without transparency',
    subject: path,
    received: 'one with it',
    remedy: 'Write a PNG or TIFF instead.',
    saying: `The picture has transparency, and a JPEG (${path}) cannot hold it.`,
  });
}

function unfit(path: string, expected: string, received: string): Fault {
  return new Fault({ kind: 'usage', expected, subject: path, received });
}

function checkLevel(level: number): void {
  if (Number.isInteger(level) && level >= 0 && level <= 9) return;
  throw new Fault({
    kind: 'usage',
    expected: 'a whole number from 0 to 9',
    subject: 'the PNG level',
    received: String(level),
  });
}
