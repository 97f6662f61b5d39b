import type { FractalNoise } from './fractal.ts';
import { NOISE_DEVIATION } from './noise.ts';

/*
 * What is printed, dragged or worn shows where some height rises above a threshold, and a pixel shows the
 * share of its area where it does. A pixel also hides the finest of the height: what it hides is about
 * normal, with a known variance, so the share is the normal distribution function of the height that is
 * left, over the deviation of what is hidden. The mean of one such function over more noise is another,
 * wider by that noise: so 75 dpi covers as much as 300 dpi.
 */

/** Entries per standard deviation, and deviations to either side. */
const STEPS = 64;
const REACH = 4;

/** An entry of `SHARES` for a height of z deviations: `(z * SHARE_SCALE + SHARE_MIDDLE) | 0`, within 0..SHARE_LAST. */
export const SHARE_SCALE = STEPS;
/** The entry of `SHARES` for a height of 0 deviations, half an entry up so that cutting off rounds. */
export const SHARE_MIDDLE = STEPS * REACH + 0.5;
/** The last entry of `SHARES`. */
export const SHARE_LAST = 2 * STEPS * REACH;

/** `normalShare` by table, for loops over pixels: off by less than 0.004. */
export const SHARES: Float32Array = /* @__PURE__ */ Float32Array.from({ length: SHARE_LAST + 1 }, (_, k) =>
  normalShare(k / STEPS - REACH),
);

/**
 * The share of a spot that lies above a threshold, where its mean lies `z` standard deviations above it:
 * the normal distribution function.
 *
 * Abramowitz and Stegun, *Handbook of Mathematical Functions* (1964), 26.2.17: off by less than 7.5e-8.
 */
export function normalShare(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const sum =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = sum * Math.exp((-z * z) / 2) * 0.3989422804014327;
  return z > 0 ? 1 - tail : tail;
}

/** The variance of a fractal sum; that of `fractalOnPixels` taken away from it is what the pixels hide. */
export function fractalVariance({ gains }: FractalNoise): number {
  return gains.reduce((sum, gain) => sum + gain * gain, 0) * NOISE_DEVIATION ** 2;
}
