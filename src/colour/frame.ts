/** Samples of a picture: bytes for 8 bit, words for 16. */
export type Samples = Uint8Array | Uint16Array;

/** A picture in memory: straight RGBA in encoded sRGB, 8 or 16 bit, row by row, in memory that workers share. */
export interface Frame {
  /** `4 * width * height` samples. */
  readonly pixels: Samples;
  /** Pixels across. */
  readonly width: number;
  /** Pixels down. */
  readonly height: number;
}

/** Zeroed samples that workers can share. */
export function sharedSamples(length: number, bits: 8 | 16): Samples {
  const memory = new SharedArrayBuffer(length * (bits / 8));
  return bits === 8 ? new Uint8Array(memory) : new Uint16Array(memory);
}
