import type { Samples } from './picture.ts';

/**
 * True where no pixel of straight RGBA lets anything through. Looks at alpha alone and stops at the
 * first that is not full, so that a picture with transparency costs next to nothing.
 */
export function isOpaque(pixels: Samples): boolean {
  const full = 2 ** (8 * pixels.BYTES_PER_ELEMENT) - 1;
  for (let at = 3; at < pixels.length; at += 4) if (pixels[at] !== full) return false;
  return true;
}
