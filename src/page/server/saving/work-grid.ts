import { gridOfTile } from '../../../render/tile-grid.ts';
import { fitGrid, type Grid, gridAtDensity } from '../../../repeat/grid.ts';
import { parseLayout } from '../../../repeat/layout.ts';
import type { Work } from '../../words/work.ts';
import type { Artworks } from '../opened/artworks.ts';

/** 254 dpi, as "tenter make" takes it where nobody says a density. */
export const ALONE_DENSITY = 10;

/** The pixels that a work is rendered on, and whether they have to be fitted. */
export interface WorkGrid {
  readonly grid: Grid;
  readonly isFitted: boolean;
}

/**
 * The grid that "tenter lay" and "tenter make" render a work on.
 *
 * @param density Pixels per mm; the tile's own where absent.
 * @throws Fault (usage) where the repeat misses whole pixels and may not be fitted.
 */
export function workGrid(
  { tile, layout: words, size }: Work,
  artworks: Artworks,
  density: number | undefined,
  mayFit: boolean,
): WorkGrid {
  const layout = parseLayout(words);
  const gridWith = (fit: boolean): Grid => {
    if (tile === undefined) {
      const repeat = { layout, ...size };
      return fit
        ? fitGrid(repeat, density ?? ALONE_DENSITY)
        : gridAtDensity(repeat, density ?? ALONE_DENSITY);
    }
    const { width, height } = artworks.tileOf(tile);
    return gridOfTile({ layout, width, height, size, fit }, density);
  };
  try {
    return { grid: gridWith(false), isFitted: false };
  } catch (error) {
    if (!mayFit) throw error;
    return { grid: gridWith(true), isFitted: true };
  }
}
