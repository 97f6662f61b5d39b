import { readFile, stat } from 'node:fs/promises';
import { basename, extname } from 'node:path';
import { atEightBits } from '../colour/samples.ts';
import { Fault } from '../fault.ts';
import { writeBeside } from './beside.ts';
import { sharp } from './engine.ts';
import { reasonOf, unwritable } from './faults.ts';
import { isOpaque } from './opaque.ts';
import { type ColourSpace, profileOf } from './profile.ts';
import type { WritablePicture } from './write.ts';

/** A profile that pictures can be converted to. */
export interface OutputProfile {
  readonly path: string;
  /** As it calls itself. */
  readonly name: string;
  readonly space: Exclude<ColourSpace, 'GRAY'>;
  readonly bytes: Buffer;
}

/** Rendering intent of every conversion, by its name in ICC.1:2010. */
export const INTENT = 'perceptual';

/** A profile is some 3 MB at most; what is larger is something else. */
const MOST_BYTES = 64e6;
/** Classes of ICC.1:2010, 7.2.5, that describe colours of a device or a space. */
const CLASSES: readonly string[] = ['prtr', 'mntr', 'spac', 'scnr'];

/**
 * Reads an ICC profile to convert to.
 *
 * @throws Fault (input) for a file that is missing or is no profile of RGB or CMYK colours.
 */
export async function readOutputProfile(path: string): Promise<OutputProfile> {
  const bytes = await readProfile(path);
  const profile = profileOf(bytes);
  const space = bytes.toString('latin1', 16, 20).trim();
  const kind = bytes.toString('latin1', 12, 16);
  if (profile.kind === 'broken' || profile.kind === 'grey' || !CLASSES.includes(kind) || space === 'GRAY')
    throw unusable(path, receivedOf(bytes, profile.kind, space));
  if (space === 'CMYK' && !hasTag(bytes, 'B2A0'))
    throw unusable(path, 'a CMYK profile that leads from the press to colours, and not back');
  return { path, name: profile.name ?? basename(path), space: space as OutputProfile['space'], bytes };
}

async function readProfile(path: string): Promise<Buffer> {
  try {
    const { size } = await stat(path);
    if (size > MOST_BYTES) throw unusable(path, `a file of ${Math.round(size / 1e6)} MB`);
    return await readFile(path);
  } catch (cause) {
    throw Fault.is(cause) ? cause : unusable(path, reasonOf(cause), cause);
  }
}

function receivedOf(bytes: Buffer, kind: string, space: string): string {
  if (bytes.toString('latin1', 36, 40) !== 'acsp') return 'a file that is no ICC profile';
  if (space === 'GRAY') return 'a profile of grey';
  if (space !== 'RGB' && space !== 'CMYK') return `a profile of the colour space ${JSON.stringify(space)}`;
  return kind === 'broken' ? 'a profile that is cut short or damaged' : 'a profile of another class';
}

function hasTag(bytes: Buffer, name: string): boolean {
  const count = bytes.readUInt32BE(128);
  return Array.from({ length: count }, (_, k) => 132 + 12 * k).some(
    (at) => bytes.toString('latin1', at, at + 4) === name,
  );
}

function unusable(path: string, received: string, cause?: unknown): Fault {
  return new Fault({
    kind: 'input',
    expected: 'an ICC profile of RGB or CMYK colours',
    subject: path,
    received,
    remedy: 'Ask the mill for its output profile (.icc), or leave --profile out: the file is then in sRGB.',
    cause,
  });
}

/**
 * Writes a picture in the colours of a profile, with that profile in it: a TIFF, or of RGB a PNG as well. It is
 * converted from sRGB by the engine's colour management (Little CMS) at 8 bit a channel, in the perceptual intent.
 * What is transparent lies on white in CMYK, which has no alpha that readers agree on.
 *
 * @throws Fault (usage) for CMYK in a PNG; Fault (output) where it cannot be written.
 */
export async function writeInProfile(
  path: string,
  picture: WritablePicture & { readonly pixelsPerMm: { readonly x: number; readonly y: number } },
  profile: OutputProfile,
): Promise<void> {
  const isPng = extname(path).toLowerCase() === '.png';
  if (isPng && profile.space === 'CMYK') throw noCmykPng(path, profile);
  await writeBeside(path, {}, async (beside) => {
    const image = engineImage(picture, profile);
    const { x, y } = picture.pixelsPerMm;
    const written = isPng
      ? image
          .withMetadata({ density: x * 25.4 })
          .withIccProfile(profile.path)
          .png({ compressionLevel: 6 })
      : image.tiff({ compression: 'lzw', predictor: 'horizontal', resolutionUnit: 'inch', xres: x, yres: y });
    await written.toFile(beside).catch((cause) => {
      if (/no space left|quota exceeded/i.test(cause.message))
        throw unwritable(path, cause, 'a disk that is full');
      throw unusable(
        profile.path,
        `one that the engine cannot convert to (${firstLine(cause.message)})`,
        cause,
      );
    });
  });
}

function engineImage({ pixels, width, height }: WritablePicture, { path, space }: OutputProfile) {
  // The engine takes 16 bit for Display P3, and would convert from that.
  const image = sharp(atEightBits(pixels), { raw: { width, height, channels: 4 }, limitInputPixels: false });
  // The profile alone leads to CMYK: by way of its own colourspace the engine would convert twice.
  if (space === 'CMYK') image.flatten({ background: '#ffffff' });
  else if (isOpaque(pixels)) image.removeAlpha();
  return image.withIccProfile(path);
}

function noCmykPng(path: string, { name }: OutputProfile): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'a TIFF for CMYK colours',
    subject: path,
    received: `a PNG in "${name}", a profile of CMYK`,
    remedy: 'Ask for --format tif, or give a profile of RGB.',
    saying: `A PNG holds no CMYK, and "${name}" is a profile of CMYK.`,
  });
}

function firstLine(text: string): string {
  return text.split('\n')[0];
}
