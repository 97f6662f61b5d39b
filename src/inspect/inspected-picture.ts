import { Fault } from '../fault.ts';

/** A picture as the house keeps it: R, G, B, alpha per pixel, encoded sRGB, alpha not premultiplied. */
export interface InspectedPicture {
  /** `width * height * 4` samples, 8 or 16 bit, row by row. */
  readonly pixels: Uint8Array | Uint8ClampedArray | Uint16Array;
  readonly width: number;
  readonly height: number;
  /** That no pixel lets anything through, or some do, where that is known; else all are looked at. */
  readonly isOpaque?: boolean;
}

/** @throws Fault (input) where the samples are not `width * height * 4`. */
export function requirePicture({ pixels, width, height }: InspectedPicture): void {
  const whole = Number.isInteger(width) && Number.isInteger(height) && width > 0 && height > 0;
  if (whole && pixels.length === width * height * 4) return;
  throw new Fault({
    kind: 'input',
    expected: 'four samples (R, G, B, alpha) for each of width x height pixels',
    subject: 'the picture',
    received: `${pixels.length} samples for ${width} x ${height} px`,
  });
}
