/**
 * Binary logarithm and exponential by table. A load plane needs three powers per pixel, and
 * `Math.pow` takes 40 ns each, eight times as long. The tables are handed in, for a loop that holds
 * them in local constants runs twice as fast.
 */

/** log2 of 1 to 2 in 512 steps. */
export const LOGARITHMS: Float64Array = /* @__PURE__ */ Float64Array.from({ length: 513 }, (_, knot) =>
  Math.log2(1 + knot / 512),
);

/** 2 to the power of 0 to 1 in 256 steps. */
export const POWERS: Float64Array = /* @__PURE__ */ Float64Array.from(
  { length: 257 },
  (_, knot) => 2 ** (knot / 256),
);

/** 2 to the powers -126 to 126. */
export const OCTAVES: Float64Array = /* @__PURE__ */ Float64Array.from(
  { length: 253 },
  (_, index) => 2 ** (index - 126),
);

/**
 * The binary logarithm of a 32-bit float, off by less than 7e-7: over a cell the chord of log2 lies
 * at most (1 / 512)^2 / (8 ln 2) below it.
 *
 * @param logarithms `LOGARITHMS`.
 * @param bits       Of a positive IEEE 754 single (8 bits of exponent, 23 of mantissa) that is
 *                   neither subnormal nor infinite.
 */
export function logarithmOfBits(logarithms: Float64Array, bits: number): number {
  const knot = (bits >> 14) & 511;
  const start = logarithms[knot];
  const rest = (bits & 16_383) / 16_384;
  return (bits >> 23) - 127 + start + (logarithms[knot + 1] - start) * rest;
}

/**
 * Two to the power of `exponent`, off by less than one part in a million: at most
 * (ln 2 / 256)^2 / 8. Exponents beyond -126..126 count as those.
 *
 * @param powers  `POWERS`.
 * @param octaves `OCTAVES`.
 */
export function exponential(powers: Float64Array, octaves: Float64Array, exponent: number): number {
  const place = Math.min(Math.max(exponent + 126, 0), 252) * 256;
  const whole = place | 0;
  const knot = whole & 255;
  const start = powers[knot];
  return octaves[whole >> 8] * (start + (powers[knot + 1] - start) * (place - whole));
}
