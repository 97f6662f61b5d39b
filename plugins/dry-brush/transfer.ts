/** Steps per standard deviation, and how many deviations to either side. */
const STEPS = 64;
const REACH = 4;
export const TRANSFER_SCALE = STEPS;
export const TRANSFER_MIDDLE = STEPS * REACH + 0.5;
export const TRANSFER_LAST = 2 * STEPS * REACH;

/**
 * The share of a spot that takes paint, by how wet the hairs are there: the normal distribution function,
 * 1 / `TRANSFER_SCALE` from entry to entry and 0 at `TRANSFER_MIDDLE`.
 *
 * What a pixel cannot show of the paper's grain and of the hairs is spread about normally; the mean over
 * it of one distribution function is another, wider by that spread: so paint seen from far covers as much
 * as paint seen from near.
 */
export const TRANSFER: Float32Array = /* @__PURE__ */ Float32Array.from(
  { length: TRANSFER_LAST + 1 },
  (_, k) => normalShare(k / STEPS - REACH),
);

/** Abramowitz and Stegun, *Handbook of Mathematical Functions* (1964), 26.2.17: off by less than 7.5e-8. */
export function normalShare(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const sum =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = sum * Math.exp((-z * z) / 2) * 0.3989422804014327;
  return z > 0 ? 1 - tail : tail;
}
