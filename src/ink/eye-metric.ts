import { decodeSrgb } from '../colour/srgb.ts';

/**
 * How a small difference of light at a colour is seen: linear sRGB differences to lightness, and to red-green and
 * yellow-blue as far as the colour's own chroma lets them be told apart. It is the slope of CIE 1976 L*a*b* at the
 * colour, its chroma weighed as CIEDE2000 weighs it (S_C = 1 + 0.045 C). Mixing stays a straight line of light, as
 * areas of ink mix; only how far a pixel lies from that line is judged by the eye, which sees a hundredth more light
 * in a shadow and does not in a white. An error of 1 is about one unit of CIEDE2000.
 */
export interface EyeMetric {
  /** The colour last asked for, linear and encoded: red, green, blue. */
  readonly linear: Float64Array;
  readonly encoded: Float64Array;
  /** Nine numbers, row by row, from linear differences; and the same from differences of encoded values. */
  readonly ofLight: Float64Array;
  readonly ofEncoded: Float64Array;
  /** Levels from 0 to `LEVELS` of encoded red, green and blue. */
  at(red: number, green: number, blue: number): void;
}

/** Colours are told apart in steps of a quarter byte: a tenth of what is just seen. */
export const LEVELS = 1020;

/** Linear sRGB to X, Y and Z over those of white (IEC 61966-2-1): each row adds up to 1. */
const TO_XYZ = Float64Array.of(
  ...[0.4339531, 0.3762191, 0.1898278],
  ...[0.212639, 0.7151687, 0.0721923],
  ...[0.0177578, 0.1094766, 0.8727656],
);
/** Below this share of white lightness is proportional to light (CIE 15). */
const EPSILON = 216 / 24_389;
const TOE = 24_389 / 27 / 116;
/** Knots of the cube root, over the square root of the share, where it is nearly straight. */
const KNOTS = 2048;

/** Prepares the metric; one per thread, it is filled anew for every colour. */
export function createEyeMetric(): EyeMetric {
  const light = Float64Array.from({ length: LEVELS + 1 }, (_, level) => decodeSrgb(level / LEVELS));
  const slopes = Float64Array.from({ length: LEVELS + 1 }, (_, level) => decodeSlope(level / LEVELS));
  const roots = Float64Array.from({ length: KNOTS + 2 }, (_, knot) => lightnessRoot((knot / KNOTS) ** 2));
  const [linear, encoded] = [new Float64Array(3), new Float64Array(3)];
  const [ofLight, ofEncoded] = [new Float64Array(9), new Float64Array(9)];

  const rootOf = (share: number): number => {
    const place = Math.sqrt(share) * KNOTS;
    const knot = place | 0;
    return roots[knot] + (roots[knot + 1] - roots[knot]) * (place - knot);
  };

  return {
    ...{ linear, encoded, ofLight, ofEncoded },
    at(red, green, blue) {
      const r = light[red];
      const g = light[green];
      const b = light[blue];
      linear[0] = r;
      linear[1] = g;
      linear[2] = b;
      encoded[0] = red / LEVELS;
      encoded[1] = green / LEVELS;
      encoded[2] = blue / LEVELS;
      const x = rootOf(TO_XYZ[0] * r + TO_XYZ[1] * g + TO_XYZ[2] * b);
      const y = rootOf(TO_XYZ[3] * r + TO_XYZ[4] * g + TO_XYZ[5] * b);
      const z = rootOf(TO_XYZ[6] * r + TO_XYZ[7] * g + TO_XYZ[8] * b);
      const a = 500 * (x - y);
      const c = 200 * (y - z);
      const told = 1 / (1 + 0.045 * Math.sqrt(a * a + c * c));
      const slopeX = slopeAt(x);
      const slopeY = slopeAt(y);
      const slopeZ = slopeAt(z);
      for (let channel = 0; channel < 3; channel++) {
        const lightness = slopeY * TO_XYZ[3 + channel];
        ofLight[channel] = 116 * lightness;
        ofLight[3 + channel] = 500 * told * (slopeX * TO_XYZ[channel] - lightness);
        ofLight[6 + channel] = 200 * told * (lightness - slopeZ * TO_XYZ[6 + channel]);
      }
      const slopeR = slopes[red];
      const slopeG = slopes[green];
      const slopeB = slopes[blue];
      for (let row = 0; row < 9; row += 3) {
        ofEncoded[row] = ofLight[row] * slopeR;
        ofEncoded[row + 1] = ofLight[row + 1] * slopeG;
        ofEncoded[row + 2] = ofLight[row + 2] * slopeB;
      }
    },
  };
}

function lightnessRoot(share: number): number {
  return share > EPSILON ? Math.cbrt(share) : TOE * share + 16 / 116;
}

/** The slope of the root, from the root. */
function slopeAt(root: number): number {
  return root > 6 / 29 ? 1 / (3 * root * root) : TOE;
}

/** Light per encoded value, of the curve of IEC 61966-2-1. */
function decodeSlope(encoded: number): number {
  return encoded <= 0.04045 ? 1 / 12.92 : (2.4 / 1.055) * ((encoded + 0.055) / 1.055) ** 1.4;
}
