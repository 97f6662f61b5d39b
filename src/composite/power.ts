/**
 * Binary logarithm and exponential by table. A load plane needs three powers per pixel, and
 * `Math.pow` takes 40 ns each, which is eight times as long.
 */

const MANTISSA_BITS = 23;
const EXPONENT_BIAS = 127;

const LOG_BITS = 9;
const LOG_CELLS = 2 ** LOG_BITS;
const REST_BITS = MANTISSA_BITS - LOG_BITS;
const LOG_KNOT = Float64Array.from({ length: LOG_CELLS + 1 }, (_, knot) => Math.log2(1 + knot / LOG_CELLS));

/**
 * The binary logarithm of a 32-bit float, off by less than 7e-7: over a cell the chord of log2 lies
 * at most (1 / 512)^2 / (8 ln 2) below it.
 *
 * @param pattern The bits of a positive IEEE 754 single that is neither subnormal nor infinite.
 */
export function logarithmOfBits(pattern: number): number {
  const cell = (pattern >> REST_BITS) & (LOG_CELLS - 1);
  const rest = (pattern & (2 ** REST_BITS - 1)) / 2 ** REST_BITS;
  const start = LOG_KNOT[cell];
  return (pattern >> MANTISSA_BITS) - EXPONENT_BIAS + start + (LOG_KNOT[cell + 1] - start) * rest;
}

const EXP_BITS = 8;
const EXP_CELLS = 2 ** EXP_BITS;
const EXP_KNOT = Float64Array.from({ length: EXP_CELLS + 1 }, (_, knot) => 2 ** (knot / EXP_CELLS));
const LARGEST = 126;
const POWER_OF_TWO = Float64Array.from({ length: 2 * LARGEST + 1 }, (_, index) => 2 ** (index - LARGEST));

/**
 * Two to the power of `exponent`, off by less than one part in a million: at most
 * (ln 2 / 256)^2 / 8. Exponents beyond -126..126 count as those.
 */
export function exponential(exponent: number): number {
  const place = Math.min(Math.max(exponent + LARGEST, 0), 2 * LARGEST) * EXP_CELLS;
  const whole = place | 0;
  const cell = whole & (EXP_CELLS - 1);
  const start = EXP_KNOT[cell];
  return POWER_OF_TWO[whole >> EXP_BITS] * (start + (EXP_KNOT[cell + 1] - start) * (place - whole));
}
