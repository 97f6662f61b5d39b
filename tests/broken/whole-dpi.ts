import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

const sizes = new Map<number, number>();

/** Keeps the size of a pixel by its whole dots per inch. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    const dpi = Math.round(25.4 / band.mmPerPixelX);
    const mmPerPixelX = sizes.get(dpi) ?? band.mmPerPixelX;
    sizes.set(dpi, mmPerPixelX);
    paintRipple(model, { ...band, mmPerPixelX, mmPerPixelY: mmPerPixelX }, layer);
  },
});
