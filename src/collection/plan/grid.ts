import { Fault } from '../../fault.ts';
import { gridOfTile } from '../../render/tile-grid.ts';
import type { Grid } from '../../repeat/grid.ts';
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
 * The grid that a tile is rendered on; see `gridOfTile`.
 *
 * @throws Fault (usage) where nothing tells the size, it is of another shape, or the repeat misses whole pixels.
 */
export function gridOf(tile: CollectionTile, wish: GridWish): Grid {
  return gridOfTile({ ...tile, size: sizeOf(tile, wish) }, wish.dpi);
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
