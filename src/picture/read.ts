import sharp, { type Metadata, type Sharp } from 'sharp';
import { readHeader, unreadable } from './header.ts';
import type { Picture } from './picture.ts';

export interface ReadOptions {
  /** Refuse a picture that claims more, before decoding it; 200 megapixels by default. */
  readonly maxPixels?: number;
}

/**
 * Reads a picture as straight RGBA in sRGB: 16 bit stays 16 bit, grey, palette and CMYK become RGB,
 * an embedded profile is converted, an EXIF turn is carried out.
 *
 * @throws Fault (input) for whatever cannot be read whole; there is never half a picture.
 */
export async function readPicture(path: string, { maxPixels }: ReadOptions = {}): Promise<Picture> {
  const header = await readHeader(path, maxPixels);
  const { samples, width, height, channels } = await decode(path, header, (image) => image);
  const density = header.density;
  return {
    pixels: channels === 4 ? share(samples) : addAlpha(samples, width * height),
    width,
    height,
    pixelsPerMm: density ? density / 25.4 : undefined,
    notes: notesOf(header),
  };
}

/** A grey picture that says where a step applies. */
export interface Mask {
  /** One sample per pixel, 0..255; shared. */
  readonly samples: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/**
 * Reads a mask: white applies, black spares, transparent counts as black.
 *
 * @throws Fault (input) as `readPicture` does.
 */
export async function readMask(path: string, { maxPixels }: ReadOptions = {}): Promise<Mask> {
  const header = await readHeader(path, maxPixels);
  const eightBit = { ...header, depth: 'uchar' as const };
  const { samples, width, height } = await decode(path, eightBit, (image) =>
    image.flatten({ background: '#000' }).toColourspace('b-w'),
  );
  return { samples: share(samples.subarray(0, width * height)) as Uint8Array, width, height };
}

interface Decoded {
  readonly samples: Uint8Array | Uint16Array;
  readonly width: number;
  readonly height: number;
  readonly channels: number;
}

async function decode(path: string, header: Metadata, change: (image: Sharp) => Sharp): Promise<Decoded> {
  const deep = header.depth === 'ushort';
  const image = sharp(path, { limitInputPixels: false, ignoreIcc: isSrgbProfile(header.icc) }).autoOrient();
  const ready = change(deep ? image.toColourspace('rgb16') : image.toColourspace('srgb'));
  const { data, info } = await ready
    .raw({ depth: deep ? 'ushort' : 'uchar' })
    .toBuffer({ resolveWithObject: true })
    .catch((cause) => {
      throw unreadable(path, 'a damaged or incomplete file', cause, 'Save or copy it again.');
    });
  const samples = deep ? new Uint16Array(data.buffer, data.byteOffset, data.length / 2) : data;
  return { samples, width: info.width, height: info.height, channels: info.channels };
}

/** Converting sRGB to sRGB would only round: leave such files as they are, to the last bit. */
function isSrgbProfile(profile: Buffer | undefined): boolean {
  return profile !== undefined && /s\0?R\0?G\0?B/.test(profile.toString('latin1'));
}

function share(samples: Uint8Array | Uint16Array): Uint8Array | Uint16Array {
  const shared = blank(samples, samples.length);
  shared.set(samples);
  return shared;
}

function addAlpha(samples: Uint8Array | Uint16Array, pixelCount: number): Uint8Array | Uint16Array {
  const channels = Math.round(samples.length / pixelCount);
  const [green, blue] = channels >= 3 ? [1, 2] : [0, 0];
  const opaque = samples.BYTES_PER_ELEMENT === 1 ? 255 : 65_535;
  const shared = blank(samples, pixelCount * 4);
  for (let from = 0, to = 0; to < shared.length; from += channels, to += 4) {
    shared[to] = samples[from];
    shared[to + 1] = samples[from + green];
    shared[to + 2] = samples[from + blue];
    shared[to + 3] = channels === 2 ? samples[from + 1] : opaque;
  }
  return shared;
}

function blank(samples: Uint8Array | Uint16Array, length: number): Uint8Array | Uint16Array {
  const memory = new SharedArrayBuffer(length * samples.BYTES_PER_ELEMENT);
  return samples.BYTES_PER_ELEMENT === 1 ? new Uint8Array(memory) : new Uint16Array(memory);
}

function notesOf(header: Metadata): string[] {
  const notes: string[] = [];
  if (header.space === 'cmyk') notes.push('CMYK was converted to sRGB; the colours of the print may differ');
  else if (header.icc && !isSrgbProfile(header.icc)) notes.push('its colour profile was converted to sRGB');
  if ((header.orientation ?? 1) !== 1) notes.push('it was turned as its EXIF says');
  if ((header.pages ?? 1) > 1) notes.push(`it has ${header.pages} pages; the first was read`);
  return notes;
}
