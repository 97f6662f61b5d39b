import { Fault } from '../../fault.ts';
import { fitGrid, type Grid, gridAtDensity, gridOfPixels, pixelStep } from '../../repeat/grid.ts';
import { STRAIGHT } from '../../repeat/layout.ts';
import { parseSize, type Size } from '../../repeat/length.ts';
import type { CollectionTile } from '../file/tiles.ts';

/** What is asked of a tile's grid besides its own facts. */
export interface GridWish {
  /** Of one tile, as it is written. */
  readonly size?: string;
  /** Times the tile's own size. */
  readonly scale?: number;
  /** Pixels per mm of the result. */
  readonly dpi?: number;
}

/**
 * The grid that a tile is rendered on; it has other pixels than the tile's file where a density is
 * asked, or where the layout asks for the nearest that fit.
 *
 * @throws Fault (usage) where nothing tells the size, it is of another shape, or the repeat misses whole pixels.
 */
export function gridOf(tile: CollectionTile, wish: GridWish): Grid {
  const { layout, width, height, fit } = tile;
  const repeat = { layout, ...sizeOf(tile, wish) };
  if (wish.dpi !== undefined) {
    gridOfPixels({ ...repeat, layout: STRAIGHT }, width, height);
    return fit ? fitGrid(repeat, wish.dpi) : gridAtDensity(repeat, wish.dpi);
  }
  if (!fit) return gridOfPixels(repeat, width, height);
  const { across, down } = pixelStep(layout);
  return gridOfPixels(repeat, nearestMultiple(width, across), nearestMultiple(height, down));
}

function sizeOf({ size, name }: CollectionTile, wish: GridWish): Size {
  const own = wish.size === undefined ? size : parseSize(wish.size);
  if (!own) {
    throw new Fault({
      kind: 'usage',
      expected: 'the size of the repeat',
      subject: `tile "${name}"`,
      received: 'nothing, and its file states no density',
      remedy: 'Add for example "size": "320x320mm" or "dpi": 300.',
    });
  }
  const { scale = 1 } = wish;
  return { width: own.width * scale, height: own.height * scale };
}

function nearestMultiple(value: number, step: number): number {
  return Math.max(1, Math.round(value / step)) * step;
}
