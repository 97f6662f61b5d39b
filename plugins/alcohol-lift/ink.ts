import type { Ink } from './model.ts';

/** What ink of each density leaves of the light, encoded sRGB, three numbers each. */
export interface InkTable {
  readonly colours: Float32Array;
}

/** Densities up to this many times that of the ink's own colour. */
const DENSEST = 3;
const STEPS = 1023;

/**
 * Transparent ink by Beer and Lambert: twice the ink lets through the square of the light. The tint is
 * multiplied in encoded sRGB, whose curve is near a power, so that a power of the encoded colour is
 * near the right one.
 */
export function inkTable({ colour, amount }: Ink): InkTable {
  const colours = new Float32Array(3 * (STEPS + 2));
  for (let step = 0; step < STEPS + 2; step++) {
    const density = (amount * DENSEST * step) / STEPS;
    for (let channel = 0; channel < 3; channel++)
      colours[3 * step + channel] = Math.max(colour[channel], 1 / 255) ** density;
  }
  return { colours };
}

/** Writes a row of ink densities as tints. */
export function layInk({ colours }: InkTable, ink: Float32Array, tint: Float32Array, first: number): void {
  for (let k = 0, at = 4 * first; k < ink.length; k++, at += 4) {
    const step = 3 * ((Math.min(DENSEST, ink[k]) * (STEPS / DENSEST) + 0.5) | 0);
    tint[at] = colours[step];
    tint[at + 1] = colours[step + 1];
    tint[at + 2] = colours[step + 2];
    tint[at + 3] = 1;
  }
}
