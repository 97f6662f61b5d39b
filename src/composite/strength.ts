/**
 * How strongly a layer is laid: opacity times mask, 0..1, one number for all pixels or one per pixel.
 * 0 leaves the artwork as it is.
 */
export type Strength = number | Float32Array;

const CONSTANT = new Float32Array(1);

/**
 * A strength as a list to index with `pixel * step`: step 0 where one number serves all pixels, so
 * that one loop serves both. Valid until the next call.
 */
export function strengthList(strength: Strength): { readonly list: Float32Array; readonly step: 0 | 1 } {
  if (typeof strength !== 'number') return { list: strength, step: 1 };
  CONSTANT[0] = strength;
  return { list: CONSTANT, step: 0 };
}
