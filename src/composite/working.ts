import {
  BYTE_OF_LINEAR,
  between,
  clampToUnit,
  ENCODED_OVER_ROOT,
  LINEAR_OF_BYTE,
  linearOfShortTable,
} from '../colour/srgb.ts';

/** Pictures as the house keeps them: R, G, B, alpha per pixel, encoded sRGB, alpha not premultiplied. */
export type Pixels = Uint8Array | Uint16Array;

/**
 * Turns pixels into a working band: R, G, B in linear light and alpha, not premultiplied, 0..1.
 *
 * @param pixels      RGBA samples, 8 or 16 bit.
 * @param firstSample Index of the first pixel's R.
 * @param pixelCount  How many pixels follow each other from there.
 * @param working     Receives `4 * pixelCount` numbers.
 */
export function readBand(
  pixels: Pixels,
  firstSample: number,
  pixelCount: number,
  working: Float32Array,
): Float32Array {
  if (pixels.BYTES_PER_ELEMENT === 1) readBytes(pixels as Uint8Array, firstSample, pixelCount, working);
  else readShorts(pixels as Uint16Array, firstSample, pixelCount, working);
  return working;
}

/**
 * Turns a working band back into pixels; clamps to 0..1. What `readBand` read comes back unchanged,
 * every value of it.
 *
 * @param working     `4 * pixelCount` numbers.
 * @param pixels      Receives RGBA samples, 8 or 16 bit.
 * @param firstSample Index of the first pixel's R.
 */
export function writeBand(
  working: Float32Array,
  pixelCount: number,
  pixels: Pixels,
  firstSample: number,
): void {
  if (pixels.BYTES_PER_ELEMENT === 1) writeBytes(working, pixelCount, pixels as Uint8Array, firstSample);
  else writeShorts(working, pixelCount, pixels as Uint16Array, firstSample);
}

function readBytes(pixels: Uint8Array, first: number, pixelCount: number, working: Float32Array): void {
  const linear = LINEAR_OF_BYTE;
  const end = pixelCount * 4;
  for (let to = 0, from = first; to < end; to += 4, from += 4) {
    working[to] = linear[pixels[from]];
    working[to + 1] = linear[pixels[from + 1]];
    working[to + 2] = linear[pixels[from + 2]];
    working[to + 3] = pixels[from + 3] / 255;
  }
}

function readShorts(pixels: Uint16Array, first: number, pixelCount: number, working: Float32Array): void {
  const linear = linearOfShortTable();
  const end = pixelCount * 4;
  for (let to = 0, from = first; to < end; to += 4, from += 4) {
    working[to] = linear[pixels[from]];
    working[to + 1] = linear[pixels[from + 1]];
    working[to + 2] = linear[pixels[from + 2]];
    working[to + 3] = pixels[from + 3] / 65_535;
  }
}

function writeBytes(working: Float32Array, pixelCount: number, pixels: Uint8Array, first: number): void {
  const byte = BYTE_OF_LINEAR;
  const end = pixelCount * 4;
  for (let from = 0, to = first; from < end; from += 4, to += 4) {
    pixels[to] = byte[(clampToUnit(working[from]) * 65_536 + 0.5) | 0];
    pixels[to + 1] = byte[(clampToUnit(working[from + 1]) * 65_536 + 0.5) | 0];
    pixels[to + 2] = byte[(clampToUnit(working[from + 2]) * 65_536 + 0.5) | 0];
    pixels[to + 3] = (clampToUnit(working[from + 3]) * 255 + 0.5) | 0;
  }
}

function writeShorts(working: Float32Array, pixelCount: number, pixels: Uint16Array, first: number): void {
  const { values, scale } = ENCODED_OVER_ROOT;
  const end = pixelCount * 4;
  for (let from = 0, to = first; from < end; from += 4, to += 4) {
    pixels[to] = shortOf(values, scale, working[from]);
    pixels[to + 1] = shortOf(values, scale, working[from + 1]);
    pixels[to + 2] = shortOf(values, scale, working[from + 2]);
    pixels[to + 3] = (clampToUnit(working[from + 3]) * 65_535 + 0.5) | 0;
  }
}

function shortOf(values: Float32Array, scale: number, light: number): number {
  return (65_535 * between(values, Math.sqrt(clampToUnit(light)) * scale) + 0.5) | 0;
}
