import type { Rgb, RgbBytes } from './hex.ts';
import { decodeSrgb } from './srgb.ts';

/** A colour in CIE 1976 L*a*b* under D65: `L` is 0..100, `a` and `b` about -128..128. */
export interface Lab {
  /** Lightness, 0 (black) to 100 (white). */
  readonly L: number;
  /** From green (below 0) to red, in units of L*, about -128..128. */
  readonly a: number;
  /** From blue (below 0) to yellow, in units of L*, about -128..128. */
  readonly b: number;
}

/** The white of IEC 61966-2-1, from its chromaticity x = 0.3127, y = 0.3290. */
const WHITE_X = 0.3127 / 0.329;
const WHITE_Z = (1 - 0.3127 - 0.329) / 0.329;

/** The two constants of L*a*b* as the fractions that CIE 15 gives in place of the rounded 0.008856 and 903.3. */
const EPSILON = 216 / 24_389;
const KAPPA = 24_389 / 27;

/**
 * Linear sRGB to L*a*b*.
 *
 * The matrix takes linear sRGB to CIE XYZ; it follows from the primaries and white of IEC 61966-2-1
 * and stands here as the exact fractions of CSS Color Module Level 4.
 */
export function labOfLinear(red: number, green: number, blue: number): Lab {
  const x = (506_752 / 1_228_815) * red + (87_881 / 245_763) * green + (12_673 / 70_218) * blue;
  const y = (87_098 / 409_605) * red + (175_762 / 245_763) * green + (12_673 / 175_545) * blue;
  const z = (7_918 / 409_605) * red + (87_881 / 737_289) * green + (1_001_167 / 1_053_270) * blue;
  const [fx, fy, fz] = [lightnessRoot(x / WHITE_X), lightnessRoot(y), lightnessRoot(z / WHITE_Z)];
  return { L: 116 * fy - 16, a: 500 * (fx - fy), b: 200 * (fy - fz) };
}

/** Encoded sRGB to L*a*b*. */
export function labOfSrgb([red, green, blue]: Rgb): Lab {
  return labOfLinear(decodeSrgb(red), decodeSrgb(green), decodeSrgb(blue));
}

/** The same of bytes. */
export function labOfBytes([red, green, blue]: RgbBytes): Lab {
  return labOfSrgb([red / 255, green / 255, blue / 255]);
}

function lightnessRoot(share: number): number {
  return share > EPSILON ? Math.cbrt(share) : (KAPPA * share + 16) / 116;
}
