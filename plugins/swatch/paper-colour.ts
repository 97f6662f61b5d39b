import type { Rgb } from 'tenter';
import type { Linear } from './linear.ts';
import { meanOf } from './planes.ts';

/** Of the means over patches of the swatch so many in a hundred are lighter than its paper. */
const LIGHTEST = 0.02;
/** Patches a side, at most. */
const PATCHES = 48;

/**
 * The colour of bare paper in a swatch, linear light: what its lightest patches return. A patch, not a sample, for
 * the glints of the scanner's grain are lighter than any paper.
 */
export function findPaper({ width, height, planes }: Linear): Rgb {
  const across = Math.min(PATCHES, width);
  const down = Math.min(PATCHES, height);
  const patches: { light: number; colour: Rgb }[] = [];
  for (let j = 0; j < down; j++) {
    for (let i = 0; i < across; i++) {
      const colour = planes.map((plane) =>
        meanOf(plane, width, {
          left: Math.floor((i * width) / across),
          right: Math.floor(((i + 1) * width) / across),
          top: Math.floor((j * height) / down),
          bottom: Math.floor(((j + 1) * height) / down),
        }),
      ) as unknown as Rgb;
      patches.push({ light: colour[0] + colour[1] + colour[2], colour });
    }
  }
  patches.sort((a, b) => b.light - a.light);
  const lightest = patches.slice(0, Math.max(1, Math.round(LIGHTEST * patches.length)));
  const mean = (c: number) => lightest.reduce((sum, { colour }) => sum + colour[c], 0) / lightest.length;
  return [mean(0), mean(1), mean(2)];
}
