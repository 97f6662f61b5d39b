import type { Frame } from '../colour/frame.ts';
import { shareBlank } from '../colour/samples.ts';
import { resample } from '../composite/resample.ts';
import { nearestPixelFinder } from '../repeat/fold.ts';
import type { Grid } from '../repeat/grid.ts';
import { formatDensity, trimNumber } from '../repeat/length.ts';

/**
 * A tile on the pixels of a grid; see `resample`. Where it has them already it comes back as it is.
 *
 * @param grid Of the tile's own repeat.
 */
export function resampleTile(tile: Frame, { repeat, tileWidth: width, tileHeight: height }: Grid): Frame {
  if (width === tile.width && height === tile.height) return tile;
  const pixels = shareBlank(tile.pixels, width * height * 4);
  const find = nearestPixelFinder(repeat.layout, tile.width, tile.height);
  resample({ ...tile, find }, { pixels, width, height });
  return { pixels, width, height };
}

/**
 * What resampling a tile to a grid does to it, for its user; nothing where it stays as it is.
 *
 * @param isAsked True where another density was asked for; else the layout asks for a few pixels.
 */
export function resampleNotes(
  { width, height }: Pick<Frame, 'width' | 'height'>,
  grid: Grid,
  isAsked: boolean,
): string[] {
  const { tileWidth, tileHeight, mmPerPixelX } = grid;
  if (width === tileWidth && height === tileHeight) return [];
  const words = `the tile was resampled from ${width} x ${height} to ${tileWidth} x ${tileHeight} px`;
  if (!isAsked) return [`${words} to fit the layout`];
  const times = Math.sqrt((tileWidth * tileHeight) / (width * height));
  const how =
    times > 1 ? `enlarged ${trimNumber(times, 1)} times` : `reduced ${trimNumber(1 / times, 1)} times`;
  return [`${words}, ${formatDensity(1 / mmPerPixelX)}: ${how}`];
}
