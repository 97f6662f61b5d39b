import { defineEffect, homeParts } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Rules a line that is one pixel wide along every box, whatever a pixel is. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    for (const { x, y, width, height, at } of homeParts(band, model.lattice)) {
      for (let j = 0; j < height; j++) {
        for (let i = 0; i < width; i++) {
          const pitch = Math.round(4 / band.mmPerPixelX);
          if ((x + i) % pitch === 0 || (y + j) % pitch === 0) layer.shade[at + j * band.width + i] = 0.1;
        }
      }
    }
  },
});
