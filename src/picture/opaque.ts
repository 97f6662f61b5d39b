import type { Samples } from './picture.ts';

/** Pixels between two looks at what was gathered. */
const BLOCK_PIXELS = 4096;

/**
 * True where no pixel of straight RGBA lets anything through. Looks at alpha alone and stops soon
 * after the first that is not full, so that a picture with transparency costs next to nothing.
 */
export function isOpaque(pixels: Samples): boolean {
  const words = wordsOf(pixels);
  if (words) return isFull(words, 1, new Uint32Array(Uint8Array.of(0, 0, 0, 255).buffer)[0] | 0);
  return isFull(pixels.subarray(3), 4, 2 ** (8 * pixels.BYTES_PER_ELEMENT) - 1);
}

/** One word per pixel of 8 bit, where memory allows it: a third of the time that bytes take. */
function wordsOf({ buffer, byteOffset, byteLength, BYTES_PER_ELEMENT }: Samples): Int32Array | undefined {
  if (BYTES_PER_ELEMENT !== 1 || byteOffset % 4 !== 0) return undefined;
  return new Int32Array(buffer, byteOffset, byteLength / 4);
}

/** True where every `step`th value has all bits of `mask`. */
function isFull(values: Int32Array | Samples, step: number, mask: number): boolean {
  for (let start = 0; start < values.length; start += step * BLOCK_PIXELS) {
    const end = Math.min(start + step * BLOCK_PIXELS, values.length);
    let common = mask;
    for (let at = start; at < end; at += step) common &= values[at];
    if (common !== mask) return false;
  }
  return true;
}
