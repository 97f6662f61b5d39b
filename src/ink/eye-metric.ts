import { decodeSrgb } from '../colour/srgb.ts';

/**
 * How a small difference of light at a colour is seen: linear sRGB differences to lightness, and to red-green and
 * yellow-blue as far as the colour's own chroma lets them be told apart. It is the slope of CIE 1976 L*a*b* at the
 * colour, its chroma weighed as CIEDE2000 weighs it (S_C = 1 + 0.045 C). Mixing stays a straight line of light, as
 * areas of ink mix; only how far a pixel lies from that line is judged by the eye, which sees a hundredth more light
 * in a shadow and does not in a white. An error of 1 is about one unit of CIEDE2000.
 */
export interface EyeMetric {
  /** Of the colour last asked for: nine numbers, row by row, from linear differences. */
  readonly light: Float64Array;
  /** The same from differences of encoded values. */
  readonly encoded: Float64Array;
  /** @param red Encoded sRGB, 0..1; the others likewise. */
  at(red: number, green: number, blue: number): void;
}

/** Linear sRGB to X, Y and Z over those of white (IEC 61966-2-1), rows that add up to 1. */
const TO_XYZ = [
  [0.4339531, 0.3762191, 0.1898278],
  [0.212639, 0.7151687, 0.0721923],
  [0.0177578, 0.1094766, 0.8727656],
] as const;
const EPSILON = 216 / 24_389;
const TOE = 24_389 / 27 / 116;

/** Prepares the metric; one per thread, it is filled anew for every colour. */
export function createEyeMetric(): EyeMetric {
  const light = new Float64Array(9);
  const encoded = new Float64Array(9);
  const root = new Float64Array(3);
  const slope = new Float64Array(3);
  return {
    light,
    encoded,
    at(red, green, blue) {
      const [r, g, b] = [decodeSrgb(red), decodeSrgb(green), decodeSrgb(blue)];
      for (let row = 0; row < 3; row++) {
        const share = TO_XYZ[row][0] * r + TO_XYZ[row][1] * g + TO_XYZ[row][2] * b;
        root[row] = share > EPSILON ? Math.cbrt(share) : TOE * share + 16 / 116;
        slope[row] = share > EPSILON ? 1 / (3 * root[row] * root[row]) : TOE;
      }
      const chroma = Math.hypot(500 * (root[0] - root[1]), 200 * (root[1] - root[2]));
      const told = 1 / (1 + 0.045 * chroma);
      for (let channel = 0; channel < 3; channel++) {
        const [x, y, z] = [0, 1, 2].map((row) => slope[row] * TO_XYZ[row][channel]);
        light[channel] = 116 * y;
        light[3 + channel] = 500 * told * (x - y);
        light[6 + channel] = 200 * told * (y - z);
      }
      const slopes = [decodeSlope(red), decodeSlope(green), decodeSlope(blue)];
      for (let at = 0; at < 9; at++) encoded[at] = light[at] * slopes[at % 3];
    },
  };
}

/** Light per encoded value, of the curve of IEC 61966-2-1. */
function decodeSlope(encoded: number): number {
  return encoded <= 0.04045 ? 1 / 12.92 : (2.4 / 1.055) * ((encoded + 0.055) / 1.055) ** 1.4;
}
