/** A picture in memory: straight RGBA in sRGB, row by row, in memory that workers can share. */
export interface Picture {
  /** `4 * width * height` samples, 8 or 16 bit. */
  readonly pixels: Uint8Array | Uint16Array;
  readonly width: number;
  readonly height: number;
  /** Pixels per mm, where the file states a density. */
  readonly pixelsPerMm?: number;
  /** What was done to it on the way in, e.g. `turned as its EXIF says`. */
  readonly notes: readonly string[];
}

/** Formats that are read, as people call them. */
export const READ_FORMATS = 'PNG, JPEG, WebP or TIFF';
