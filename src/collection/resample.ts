import { resample } from '../composite/resample.ts';
import { type Frame, shareBlank } from '../host/frame.ts';
import { nearestPixelFinder } from '../repeat/fold.ts';
import type { Grid } from '../repeat/grid.ts';

/**
 * A tile at another density; see `resample`.
 *
 * @param grid The one asked for, of the same repeat.
 */
export function resampleTile(tile: Frame, { repeat, tileWidth: width, tileHeight: height }: Grid): Frame {
  if (width === tile.width && height === tile.height) return tile;
  const pixels = shareBlank(tile.pixels, width * height * 4);
  const find = nearestPixelFinder(repeat.layout, tile.width, tile.height);
  resample({ ...tile, find }, { pixels, width, height });
  return { pixels, width, height };
}
