import type { WoodValues } from './parameters.ts';
import { type Rgb, SPECIES } from './species.ts';

/** The colours of a render, before pieces differ. Encoded sRGB, 0..1. */
export interface Palette {
  readonly light: Rgb;
  readonly dark: Rgb;
  readonly glow: Rgb;
  readonly pore: Rgb;
}

/** How red, green and blue follow a change of lightness: darker wood is also warmer. */
export const WASH = [0.78, 1.04, 1.32] as const;

export function paletteOf(values: WoodValues): Palette {
  const species = SPECIES[values.species];
  if (!values.ownColours) return species;
  const [light, dark] = [readHex(values.light), readHex(values.dark)];
  const pore: Rgb = [dark[0] * 0.68, dark[1] * 0.64, dark[2] * 0.6];
  return { light, dark, glow: [0, 0, 0], pore };
}

/** Reads a colour that the host has checked. */
function readHex(text: string): Rgb {
  const bits = Number.parseInt(text.slice(1), 16);
  return [(bits >> 16) / 255, ((bits >> 8) & 255) / 255, (bits & 255) / 255];
}

/**
 * Colour as a curve of tone, c(t) = a + t * (b + t * k): three numbers each for red, green and blue.
 *
 * @param meanTone  The tone whose colour contrast does not change.
 * @param lightness Of the piece, as a share.
 * @param warmth    Of the piece: above 0 redder, below 0 yellower and greyer.
 */
export function toneCurve(
  palette: Palette,
  contrast: number,
  meanTone: number,
  lightness: number,
  warmth: number,
): Float64Array {
  const curve = new Float64Array(9);
  const lean = [0.02, -0.006, -0.05];
  for (let n = 0; n < 3; n++) {
    const piece = 1 + lightness * WASH[n] + warmth * lean[n];
    const slope = palette.dark[n] - palette.light[n] + palette.glow[n];
    const bend = -palette.glow[n];
    // Stretched about the mean: t -> mean + contrast * (t - mean).
    const offset = meanTone * (1 - contrast);
    curve[n * 3] = piece * (palette.light[n] + offset * (slope + offset * bend));
    curve[n * 3 + 1] = piece * contrast * (slope + 2 * offset * bend);
    curve[n * 3 + 2] = piece * contrast * contrast * bend;
  }
  return curve;
}
