import { fullSample, linearTable } from '../colour/samples.ts';
import type { LitPicture } from './lit-picture.ts';

/** A picture in few cells: the mean light of each, of one kind of light. */
export interface LightCells {
  readonly across: number;
  readonly down: number;
  /** Natural logarithm of the mean linear light; NaN where a cell shows next to nothing. */
  readonly levels: Float64Array;
}

/** What of the light is looked at: a weight for linear red, green and blue. */
export type LightKind = readonly [number, number, number];

/** Y of IEC 61966-2-1. */
export const LUMINANCE: LightKind = [0.2126, 0.7152, 0.0722];
export const RED: LightKind = [1, 0, 0];
export const GREEN: LightKind = [0, 1, 0];
export const BLUE: LightKind = [0, 0, 1];

/** Darker than this, of white as 1, the dark of a scanner says more than the light that fell. */
const DARKEST = 1 / 512;

/**
 * The mean linear light of a picture in cells. Means of light, for light that is uneven multiplies them;
 * their logarithms, for then it adds.
 *
 * @param most Cells along the longer side, at most.
 */
export function lightCells(picture: LitPicture, kinds: readonly LightKind[], most: number): LightCells[] {
  const { width, height, samples, mmPerPixelX, mmPerPixelY } = picture;
  const [wide, tall] = [width * mmPerPixelX, height * mmPerPixelY];
  const side = Math.max(wide, tall) / most;
  const across = Math.max(1, Math.min(width, Math.round(wide / side)));
  const down = Math.max(1, Math.min(height, Math.round(tall / side)));
  const sums = new Float64Array(4 * across * down);
  const linear = linearTable(samples);
  const full = fullSample(samples);
  const cellOf = Int32Array.from({ length: width }, (_, x) => Math.floor((x * across) / width));
  for (let y = 0; y < height; y++) {
    const row = Math.floor((y * down) / height) * across;
    for (let x = 0, at = 4 * y * width; x < width; x++, at += 4) {
      const alpha = samples[at + 3] / full;
      const cell = 4 * (row + cellOf[x]);
      sums[cell] += alpha * linear[samples[at]];
      sums[cell + 1] += alpha * linear[samples[at + 1]];
      sums[cell + 2] += alpha * linear[samples[at + 2]];
      sums[cell + 3] += alpha;
    }
  }
  const pixelsPerCell = (width * height) / (across * down);
  return kinds.map((kind) => ({ across, down, levels: levelsOf(sums, kind, pixelsPerCell / 4) }));
}

/** @param least Opacity summed over a cell below which it shows next to nothing. */
function levelsOf(sums: Float64Array, [red, green, blue]: LightKind, least: number): Float64Array {
  return Float64Array.from({ length: sums.length / 4 }, (_, k) => {
    const opacity = sums[4 * k + 3];
    const light = (red * sums[4 * k] + green * sums[4 * k + 1] + blue * sums[4 * k + 2]) / opacity;
    return opacity > least && light > DARKEST ? Math.log(light) : Number.NaN;
  });
}
