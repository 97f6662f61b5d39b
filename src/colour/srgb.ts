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

/*
 * The tables. Loops over whole pictures take them into local constants and index them there, which
 * the compiled code rewards with a third of its time; everybody else calls the functions beside them.
 */

/** The linear value of each 8-bit sample. */
export const LINEAR_OF_BYTE: Float32Array = /* @__PURE__ */ Float32Array.from({ length: 256 }, (_, byte) =>
  decodeSrgb(byte / 255),
);

let linearOfShort: Float32Array | undefined;

/** The linear value of each of the 65,536 16-bit samples; made at the first call. */
export function linearOfShortTable(): Float32Array {
  linearOfShort ??= Float32Array.from({ length: 65_536 }, (_, short) => decodeSrgb(short / 65_535));
  return linearOfShort;
}

/**
 * The nearest byte of the linear value `index / 65536`. The curve is steepest at black,
 * 12.92 * 255 = 3,295 bytes per unit of light, so the cell moves a byte's edge by at most
 * 3,295 / 65,536 / 2 = 0.026 of a byte.
 */
export const BYTE_OF_LINEAR: Uint8Array = /* @__PURE__ */ bytesOfLinear();

function bytesOfLinear(): Uint8Array {
  const table = new Uint8Array(65_537);
  for (let byte = 1; byte < 256; byte++) table.fill(byte, Math.ceil(decodeSrgb((byte - 0.5) / 255) * 65_536));
  return table;
}

/**
 * Linear to the nearest 8-bit sample: off the exact curve by at most 0.526 of a byte, where exact
 * rounding is off by 0.5. Clamps; what is not a number becomes 0.
 */
export function byteOfLinear(linear: number): number {
  return BYTE_OF_LINEAR[(clampToUnit(linear) * 65_536 + 0.5) | 0];
}

/** A curve as values at even places: place = scale * x. */
export interface Knots {
  readonly values: Float32Array;
  readonly scale: number;
}

/** The value between two knots, on the straight line from one to the other. */
export function between(values: Float32Array, place: number): number {
  const knot = place | 0;
  const start = values[knot];
  return start + (values[knot + 1] - start) * (place - knot);
}

/**
 * Encoded over the square root of linear, where the curve is nearly straight. A knot lies on the
 * break between its two pieces, so that no chord cuts the corner.
 */
export const ENCODED_OVER_ROOT: Knots = /* @__PURE__ */ encodedOverRoot();

function encodedOverRoot(): Knots {
  return knotsOf(256 / Math.sqrt(LINEAR_BREAK), (root) => encodeSrgb(root * root));
}

/** Linear over encoded. */
export const LINEAR_OVER_ENCODED: Knots = /* @__PURE__ */ knotsOf(4096, decodeSrgb);

function knotsOf(scale: number, curve: (x: number) => number): Knots {
  return {
    values: Float32Array.from({ length: Math.ceil(scale) + 2 }, (_, knot) => curve(knot / scale)),
    scale,
  };
}

/**
 * Linear to encoded by table: off the exact curve by less than 2e-7, a hundredth of a 16-bit step.
 *
 * @param linear 0..1, not checked.
 */
export function encodeByTable(linear: number): number {
  return between(ENCODED_OVER_ROOT.values, Math.sqrt(linear) * ENCODED_OVER_ROOT.scale);
}

/**
 * Encoded to linear by table: off the exact curve by less than 1e-7.
 *
 * @param encoded 0..1, not checked.
 */
export function decodeByTable(encoded: number): number {
  return between(LINEAR_OVER_ENCODED.values, encoded * LINEAR_OVER_ENCODED.scale);
}

/**
 * Linear to the nearest 16-bit sample: off the exact curve by less than 0.52 of a step. Clamps; what
 * is not a number becomes 0.
 */
export function shortOfLinear(linear: number): number {
  return (65_535 * encodeByTable(clampToUnit(linear)) + 0.5) | 0;
}

/** The nearest value in 0..1; 0 for what is not a number. */
export function clampToUnit(value: number): number {
  if (!(value > 0)) return 0;
  if (value >= 1) return 1;
  return value;
}
