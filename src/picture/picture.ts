/** Bits of one sample. */
export type Bits = 8 | 16;

/** Samples of a picture: bytes for 8 bit, words for 16. */
export type Samples = Uint8Array | Uint16Array;

/** A picture in memory: straight RGBA in sRGB, row by row, in memory that workers can share. */
export interface Picture {
  /** `4 * width * height` samples, backed by a SharedArrayBuffer. */
  readonly pixels: Samples;
  readonly width: number;
  readonly height: number;
  readonly bits: Bits;
  /** Pixels per mm, where the file states one density for both directions. */
  readonly pixelsPerMm?: number;
  /** What was done to it on the way in, e.g. `turned as its EXIF orientation (6) says`. */
  readonly notes: readonly string[];
}

/** Pixels per mm across and down. */
export interface Density {
  readonly x: number;
  readonly y: number;
}

/** Formats that are read, as people call them. */
export const READ_FORMATS = 'PNG, JPEG, WebP or TIFF';

/** Well above a 640 x 640 mm tile at 300 dpi (57 megapixels), well below what would fill the memory. */
export const DEFAULT_MAX_PIXELS = 200e6;

/** Zeroed samples that workers can share. */
export function sharedSamples(length: number, bits: Bits): Samples {
  const memory = new SharedArrayBuffer(length * (bits / 8));
  return bits === 8 ? new Uint8Array(memory) : new Uint16Array(memory);
}
