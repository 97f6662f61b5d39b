import { modulo } from '../repeat/lattice.ts';
import type { InspectedPicture } from './inspected-picture.ts';
import type { Seam } from './seam.ts';

/**
 * A picture rolled over its lattice across a moved seam: it begins `by` columns (rows) further on, so what
 * met at the seam now lies inside, and what lay inside meets at the edge. It closes as the picture does.
 */
export function roll(
  { pixels, width, height }: InspectedPicture,
  { axis, after }: Seam,
  by: number,
): InspectedPicture {
  const rolled = pixels.slice();
  const copy = (from: number, to: number, count: number) =>
    rolled.set(pixels.subarray(4 * from, 4 * (from + count)), 4 * to);
  for (let y = 0; y < height; y++) {
    if (axis === 'column') {
      copy(y * width + by, y * width, width - by);
      copy(modulo(y + after.shift, height) * width, (y + 1) * width - by, by);
    } else if (y + by < height) copy((y + by) * width, y * width, width);
    else {
      const shift = modulo(after.shift, width);
      const from = (y + by - height) * width;
      copy(from + shift, y * width, width - shift);
      copy(from, (y + 1) * width - shift, shift);
    }
  }
  return { pixels: rolled, width, height };
}
