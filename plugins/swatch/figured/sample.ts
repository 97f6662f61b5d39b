import { type Box, cellIndex, cubicShares, type FieldShape } from 'tenter';
import type { Level } from '../way.ts';
import { wrapOf } from './closed.ts';

/** The swatch as pixels of a certain size see it. */
export interface Sight {
  readonly seen: Seen;
  /** Places of a pixel that are looked at, across and down. */
  readonly places: 1 | 2;
}

/** A level, and how its edges meet where it closes by itself. */
export interface Seen {
  readonly level: Level;
  readonly wrap?: FieldShape;
}

/** A level as dense as this much of the pixels' density counts as just as dense. */
const AS_DENSE = 0.12;

/**
 * @param mm Side of a pixel.
 * @param closedOver The box that the swatch closes over by itself, if it does.
 */
export function sightOf(levels: readonly Level[], mm: number, closedOver?: Box): Sight {
  const depth = Math.log2(mm / levels[0].mmPerSample);
  const isFiner = depth <= AS_DENSE;
  // Of a level twice as fine as the pixels four places are looked at: one place of one as coarse would blur.
  const level = levels[isFiner ? 0 : Math.max(0, Math.min(levels.length - 1, Math.round(depth - 1)))];
  return { seen: { level, wrap: closedOver && wrapOf(level, closedOver) }, places: isFiner ? 1 : 2 };
}

const across = new Float64Array(4);
const down = new Float64Array(4);
const column = new Int32Array(4);

/**
 * Adds what a level has at (s, t), in samples from the first one's centre, to pixel `at` of the planes, by the cubic
 * through sixteen samples. Beyond the edges of the swatch its edge goes on, or its other edge where it closes.
 */
export function addSample(
  { level, wrap }: Seen,
  s: number,
  t: number,
  planes: readonly Float32Array[],
  at: number,
): void {
  const { width, height } = level;
  const i = Math.floor(s);
  const j = Math.floor(t);
  cubicShares(s - i, across);
  cubicShares(t - j, down);
  if (i >= 1 && j >= 1 && i + 2 < width && j + 2 < height) {
    const start = i - 1 + (j - 1) * width;
    for (let plane = 0; plane < planes.length; plane++) {
      const values = level.planes[plane];
      let sum = 0;
      for (let row = 0, k = start; row < 4; row++, k += width) {
        sum +=
          down[row] *
          (across[0] * values[k] +
            across[1] * values[k + 1] +
            across[2] * values[k + 2] +
            across[3] * values[k + 3]);
      }
      planes[plane][at] += Math.max(sum, 0);
    }
    return;
  }
  for (let k = 0; k < 4; k++) column[k] = Math.min(width - 1, Math.max(0, i - 1 + k));
  for (let plane = 0; plane < planes.length; plane++) {
    const values = level.planes[plane];
    let sum = 0;
    for (let row = 0; row < 4; row++) {
      const k = Math.min(height - 1, Math.max(0, j - 1 + row)) * width;
      for (let c = 0; c < 4; c++) {
        const from = wrap ? cellIndex(wrap, i - 1 + c, j - 1 + row) : k + column[c];
        sum += down[row] * across[c] * values[from];
      }
    }
    planes[plane][at] += Math.max(sum, 0);
  }
}

/** The same times `gain`, straight between the four samples around: for pixels of which several places are looked at. */
export function addStraight(
  { level, wrap }: Seen,
  s: number,
  t: number,
  gain: number,
  planes: readonly Float32Array[],
  at: number,
): void {
  const { width, height } = level;
  const i = Math.floor(s);
  const j = Math.floor(t);
  const u = s - i;
  const v = t - j;
  const isInside = i >= 0 && j >= 0 && i + 1 < width && j + 1 < height;
  const indexOf = (ci: number, cj: number) =>
    wrap
      ? cellIndex(wrap, ci, cj)
      : Math.min(width - 1, Math.max(0, ci)) + Math.min(height - 1, Math.max(0, cj)) * width;
  const a = isInside ? i + j * width : indexOf(i, j);
  const b = isInside ? a + 1 : indexOf(i + 1, j);
  const c = isInside ? a + width : indexOf(i, j + 1);
  const d = isInside ? c + 1 : indexOf(i + 1, j + 1);
  for (let plane = 0; plane < planes.length; plane++) {
    const values = level.planes[plane];
    const above = values[a] + (values[b] - values[a]) * u;
    const below = values[c] + (values[d] - values[c]) * u;
    planes[plane][at] += gain * (above + (below - above) * v);
  }
}
