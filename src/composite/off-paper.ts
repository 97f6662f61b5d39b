import type { Rgb } from '../colour/hex.ts';

/**
 * Takes the paper away from an opaque picture, in place: what is left is the thinnest straight RGBA
 * that, laid normally over the paper (W3C source-over on encoded values), gives the picture back
 * within one step. Bare paper becomes fully transparent.
 *
 * Of C = a F + (1 - a) P with F within 0..1 the least a is the greatest of (P - C) / P and
 * (C - P) / (1 - P) over the channels; F follows. a is rounded up, or F would leave its range.
 *
 * @param pixels Opaque RGBA, 8 or 16 bit.
 * @param paper  P, encoded sRGB, 0..1.
 */
export function takeOffPaper(pixels: Uint8Array | Uint16Array, paper: Rgb): void {
  const most = pixels.BYTES_PER_ELEMENT === 2 ? 65535 : 255;
  const bare = paper.map((value) => Math.round(value * most));
  for (let at = 0; at < pixels.length; at += 4) {
    let least = 0;
    for (let channel = 0; channel < 3; channel++)
      least = Math.max(least, coverNeeded(pixels[at + channel], bare[channel], most));
    const alpha = Math.ceil(least * most);
    for (let channel = 0; channel < 3; channel++) {
      const from = bare[channel];
      const paint = alpha === 0 ? from : from + ((pixels[at + channel] - from) * most) / alpha;
      pixels[at + channel] = Math.min(most, Math.max(0, Math.round(paint)));
    }
    pixels[at + 3] = alpha;
  }
}

function coverNeeded(value: number, paper: number, most: number): number {
  return value < paper ? (paper - value) / paper : value > paper ? (value - paper) / (most - paper) : 0;
}
