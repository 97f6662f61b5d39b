import { type Frame, type Samples, sharedSamples } from '../colour/frame.ts';

/** Bits of one sample. */
export type Bits = 8 | 16;

export { type Samples, sharedSamples };

/** A picture as it was read. */
export interface Picture extends Frame {
  readonly bits: Bits;
  /** Whether the file can let anything through. Where it cannot, every pixel is opaque. */
  readonly transparent: boolean;
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
