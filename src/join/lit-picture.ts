import type { Samples } from '../colour/frame.ts';
import { LINEAR_OF_BYTE, linearOfShortTable } from '../colour/srgb.ts';
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

/** The linear value of each sample of a kind, 0..1. */
export function linearTable(samples: Samples): Float32Array {
  return samples instanceof Uint16Array ? linearOfShortTable() : LINEAR_OF_BYTE;
}

/** The sample that says 1. */
export function fullSample(samples: Samples): number {
  return samples instanceof Uint16Array ? 65_535 : 255;
}
