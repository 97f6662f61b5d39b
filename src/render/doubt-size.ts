import { formatDensity, formatSize } from '../repeat/length.ts';
import type { TileSize } from './tile-grid.ts';

/**
 * Pixels per inch below which a stated density is not taken to be meant: screens and cameras write 72 or 96
 * (common practice). A little under the round number, which pixels per metre only come near.
 */
const LEAST_DPI = 99.5;
/** mm. Wider nothing is printed that repeats: digital machines come to about 1.6 m, screens to less (common practice). */
const LARGEST_MM = 1600;

/**
 * Why the size of a tile is not to be believed where only its file tells it; nothing where it may be, or
 * where a person said it.
 *
 * @param width px of the picture.
 */
export function doubtSize({ size, from }: TileSize, width: number): string | undefined {
  if (from !== 'file') return undefined;
  const density = width / size.width;
  const came = `the repeat came out at ${formatSize(size)}, from the ${formatDensity(density)} that its file states`;
  if (density * 25.4 < LEAST_DPI)
    return `${came}; so little is mostly what a screen or a camera writes into every file`;
  if (Math.max(size.width, size.height) > LARGEST_MM)
    return `${came}; that is larger than mills print, some ${LARGEST_MM} mm at most`;
  return undefined;
}
