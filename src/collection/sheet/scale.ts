import { boxOf, parseLayout, type Repeat } from '../../repeat/index.ts';
import type { Shown, Swatch } from './swatch.ts';

/** How often the largest repeat is seen at least, across and down. */
const REPEATS = 1.5;

/** The repeat on which a picture stands: its own layout, for a reflected tile may have been unfolded. */
export function repeatOf({ picture }: Pick<Shown, 'picture'>): Repeat {
  return { layout: parseLayout(picture.layout), width: picture.widthMm, height: picture.heightMm };
}

/** Pixels per mm of a picture. */
export function densityOf({ picture }: Pick<Shown, 'picture'>): number {
  return picture.widthPx / picture.widthMm;
}

/**
 * The one scale at which all of these are shown: so that the largest repeat is seen in repeat in a
 * window of `side` px, and nothing is enlarged.
 *
 * @returns Pixels per mm.
 */
export function commonScale(swatches: readonly Swatch[], side: number): number {
  let scale = Number.POSITIVE_INFINITY;
  for (const { made } of swatches) {
    if (!made) continue;
    const { width, height } = boxOf(repeatOf(made));
    scale = Math.min(scale, densityOf(made), side / (REPEATS * Math.max(width, height)));
  }
  return Number.isFinite(scale) ? scale : 1;
}
