import type { Samples } from '../colour/frame.ts';
import { Fault } from '../fault.ts';

/** A picture with its scale: straight RGBA in sRGB, 8 or 16 bit, row by row. */
export interface LitPicture {
  /** Pixels across. */
  readonly width: number;
  /** Pixels down. */
  readonly height: number;
  /** Width of a pixel in mm. */
  readonly mmPerPixelX: number;
  /** Height of a pixel in mm. */
  readonly mmPerPixelY: number;
  /** `4 * width * height` samples. */
  readonly samples: Samples;
}

/**
 * Refuses what cannot be a picture.
 *
 * @throws Fault (input) where the samples do not fit the size, or a pixel has no size in mm.
 */
export function requireLitPicture({ width, height, mmPerPixelX, mmPerPixelY, samples }: LitPicture): void {
  const isSized = width >= 1 && height >= 1 && samples.length === 4 * width * height;
  if (isSized && mmPerPixelX > 0 && mmPerPixelY > 0) return;
  throw new Fault({
    kind: 'input',
    expected: isSized ? 'a size in mm above 0 of each pixel' : `${4 * width * height} samples`,
    subject: `a picture of ${width} x ${height} px`,
    received: isSized ? `${mmPerPixelX} x ${mmPerPixelY} mm` : String(samples.length),
    remedy: 'Hand over straight RGBA, four samples a pixel.',
  });
}
