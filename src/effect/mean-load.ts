import type { Box } from '../repeat/repeat.ts';
import type { Band } from './effect.ts';
import type { TextureLayer } from './layer.ts';

/** Pixels along a side at most, and mm of a pixel at least: what is finer evens out. */
const MOST_PIXELS = 220;
const SMALLEST_PIXEL = 0.5;

/**
 * The mean load over a whole box, from a picture of it of at most 220 x 220 pixels: for an effect that
 * brings the paint it leaves to a level, in `prepare`.
 *
 * @param paint Fills the load of a band, which is 1 before; for instance `(band, layer) => paintMine(model, band, layer)`.
 * @returns 1 where as much paint is left as the artwork has.
 */
export function meanLoad(box: Box, paint: (band: Band, layer: TextureLayer<'load'>) => void): number {
  const width = Math.min(MOST_PIXELS, Math.ceil(box.width / SMALLEST_PIXEL));
  const height = Math.min(MOST_PIXELS, Math.ceil(box.height / SMALLEST_PIXEL));
  const load = new Float32Array(width * height).fill(1);
  const band = {
    x: 0,
    y: 0,
    width,
    height,
    mmPerPixelX: box.width / width,
    mmPerPixelY: box.height / height,
  };
  paint(band, { width, height, load });
  return load.reduce((sum, value) => sum + value, 0) / load.length;
}
