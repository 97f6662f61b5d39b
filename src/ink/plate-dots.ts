import type { OpenDots } from './dot-field.ts';
import type { Plates } from './plates.ts';

const WORD_OF_BYTE = 257;
const WHOLE = 65_535;

/** True where every pixel of every plate is all ink or none: no dots are wanted. */
export function isWhole({ planes }: Plates): boolean {
  return planes.every((plane) => plane.every((area) => area === 0 || area === 255));
}

/**
 * Rows of all plates in dots: one bit a pixel, the leftmost highest, each row from a new byte. Dots of inks that
 * share a pixel's area stand beside each other: each ink takes the thresholds that follow those of the inks before
 * it. What is more than the whole (a trap, an overprint) falls on what is printed already.
 *
 * @param dots None for plates whose every pixel is all ink or none.
 * @returns One block of `count` rows for each plate.
 */
export function plateBits(
  { planes, width }: Plates,
  top: number,
  count: number,
  dots?: OpenDots,
): Uint8Array[] {
  const rowBytes = Math.ceil(width / 8);
  const blocks = planes.map(() => new Uint8Array(rowBytes * count));
  const thresholds = new Uint16Array(width);
  const taken = new Uint32Array(width);
  for (let row = 0; row < count; row++) {
    dots?.row(0, top + row, width, thresholds);
    taken.fill(0);
    const from = (top + row) * width;
    planes.forEach((plane, ink) => {
      const block = blocks[ink];
      const start = row * rowBytes;
      for (let x = 0; x < width; x++) {
        const area = WORD_OF_BYTE * plane[from + x];
        if (area === 0) continue;
        const first = Math.min(taken[x], WHOLE - area);
        if (thresholds[x] >= first && thresholds[x] < first + area)
          block[start + (x >> 3)] |= 0x80 >> (x & 7);
        taken[x] += area;
      }
    });
  }
  return blocks;
}
