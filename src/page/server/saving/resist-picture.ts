import { sharedSamples, type WritablePicture } from '../../../picture/index.ts';
import type { Grid } from '../../../repeat/grid.ts';

/** The grey picture of a resist on the pixels of a tile, as `lay --mask` takes it. */
export function resistPicture(samples: Uint8Array, grid: Grid): WritablePicture {
  const { tileWidth: width, tileHeight: height } = grid;
  const pixels = sharedSamples(width * height * 4, 8).fill(255);
  for (const [k, sample] of samples.entries()) pixels.fill(sample, 4 * k, 4 * k + 3);
  return { pixels, width, height, pixelsPerMm: { x: 1 / grid.mmPerPixelX, y: 1 / grid.mmPerPixelY } };
}
