import { resample } from '../composite/resample.ts';
import { nearestPixelFinder } from '../repeat/fold.ts';
import { pixelStep } from '../repeat/grid.ts';
import type { Layout } from '../repeat/layout.ts';
import { nearestMultiple } from '../repeat/multiple.ts';
import { type Frame, shareBlank } from './frame.ts';

/**
 * Resamples a tile by the few pixels that a drop (in height) or brick (in width) needs. Along that
 * side the tile repeats by itself, so the edges stay closed; see `resample`.
 */
export function fitFrame(tile: Frame, layout: Layout): Frame {
  const step = pixelStep(layout);
  const width = nearestMultiple(tile.width, step.across);
  const height = nearestMultiple(tile.height, step.down);
  if (width === tile.width && height === tile.height) return tile;
  const pixels = shareBlank(tile.pixels, width * height * 4);
  resample({ ...tile, find: nearestPixelFinder(layout, tile.width, tile.height) }, { pixels, width, height });
  return { pixels, width, height };
}
