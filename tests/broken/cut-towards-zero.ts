import { defineEffect } from 'tenter';
import { prepareRipple, ripple, shadeAt } from './ripple.ts';

/** Cuts places off towards zero to find their cell, so that left of it and above they lie outside of theirs. */
export default defineEffect({
  ...ripple,
  prepare: prepareRipple,
  paint(model, band, layer) {
    for (let j = 0, k = 0; j < band.height; j++) {
      for (let i = 0; i < band.width; i++, k++) {
        const [x, y] = [(band.x + i + 0.5) * band.mmPerPixelX, (band.y + j + 0.5) * band.mmPerPixelY];
        const share = x / 4 - Math.trunc(x / 4);
        layer.shade[k] = shadeAt(model, x, y, band) * Math.sqrt(4 * share * (1 - share) + 0.1);
      }
    }
  },
});
