/**
 * The sRGB transfer curve of IEC 61966-2-1, exact and by table.
 *
 * "Encoded" is what pictures store, "linear" is proportional to light. Both run 0..1.
 */

/** Below this an encoded value is proportional to light (IEC 61966-2-1). */
const ENCODED_BREAK = 0.04045;
/** The same place on the linear side, as IEC 61966-2-1 rounds it. */
const LINEAR_BREAK = 0.0031308;
const TOE_SLOPE = 12.92;

/** Encoded to linear, exact (IEC 61966-2-1). Values outside 0..1 follow the formula, below zero a straight line. */
export function decodeSrgb(encoded: number): number {
  return encoded <= ENCODED_BREAK ? encoded / TOE_SLOPE : ((encoded + 0.055) / 1.055) ** 2.4;
}

/** Linear to encoded, exact (IEC 61966-2-1). Values outside 0..1 follow the formula, below zero a straight line. */
export function encodeSrgb(linear: number): number {
  return linear <= LINEAR_BREAK ? linear * TOE_SLOPE : 1.055 * linear ** (1 / 2.4) - 0.055;
}

/** The linear value of each 8-bit sample. */
export const LINEAR_OF_BYTE: Readonly<Float32Array> = Float32Array.from({ length: 256 }, (_, byte) =>
  decodeSrgb(byte / 255),
);

let linearOfShort: Float32Array | undefined;

/** The linear value of each of the 65,536 16-bit samples; made at the first call. */
export function linearOfShortTable(): Readonly<Float32Array> {
  linearOfShort ??= Float32Array.from({ length: 65_536 }, (_, short) => decodeSrgb(short / 65_535));
  return linearOfShort;
}

/**
 * The curve is steepest at black, 12.92 * 255 = 3,295 bytes per unit of light, so a cell of this
 * width moves a byte's edge by at most 3,295 / 65,536 / 2 = 0.026 of a byte.
 */
const BYTE_CELLS = 65_536;
const BYTE_OF_CELL = Uint8Array.from({ length: BYTE_CELLS + 1 }, (_, cell) =>
  Math.floor(255 * encodeSrgb(cell / BYTE_CELLS) + 0.5),
);

/**
 * Linear to the nearest 8-bit sample by table: off the exact curve by at most 0.526 of a byte, where
 * exact rounding is off by 0.5. Clamps; what is not a number becomes 0.
 */
export function byteOfLinear(linear: number): number {
  return BYTE_OF_CELL[(clampToUnit(linear) * BYTE_CELLS + 0.5) | 0];
}

/**
 * The encode table is even in the square root of light, where the curve is nearly straight, and a
 * knot lies on the break between its two pieces.
 */
const KNOTS_TO_BREAK = 256;
const ENCODE_SCALE = KNOTS_TO_BREAK / Math.sqrt(LINEAR_BREAK);
const ENCODE_KNOT = Float32Array.from({ length: Math.ceil(ENCODE_SCALE) + 2 }, (_, knot) =>
  encodeSrgb((knot / ENCODE_SCALE) ** 2),
);

/**
 * Linear to encoded by table. Off the exact curve by less than 4e-7 (a fortieth of a 16-bit step).
 *
 * @param linear 0..1, not checked.
 */
export function encodeByTable(linear: number): number {
  const place = Math.sqrt(linear) * ENCODE_SCALE;
  const knot = place | 0;
  const start = ENCODE_KNOT[knot];
  return start + (ENCODE_KNOT[knot + 1] - start) * (place - knot);
}

/** Linear to the nearest 16-bit sample, off by less than 0.53 of a step. Clamps; what is not a number becomes 0. */
export function shortOfLinear(linear: number): number {
  return (65_535 * encodeByTable(clampToUnit(linear)) + 0.5) | 0;
}

const DECODE_CELLS = 4096;
const DECODE_KNOT = Float32Array.from({ length: DECODE_CELLS + 2 }, (_, knot) =>
  decodeSrgb(knot / DECODE_CELLS),
);

/**
 * Encoded to linear by table. Off the exact curve by less than 1e-7.
 *
 * @param encoded 0..1, not checked.
 */
export function decodeByTable(encoded: number): number {
  const place = encoded * DECODE_CELLS;
  const knot = place | 0;
  const start = DECODE_KNOT[knot];
  return start + (DECODE_KNOT[knot + 1] - start) * (place - knot);
}

/** The nearest value in 0..1. */
export function clampToUnit(value: number): number {
  return Math.min(Math.max(value, 0), 1);
}
