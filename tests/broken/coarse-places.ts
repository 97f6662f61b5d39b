import { defineEffect } from 'tenter';
import { ripple, shadeAt } from './ripple.ts';

/** Closes in the algebra, but its places are kept in hundredths of a mm. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    for (let j = 0, k = 0; j < band.height; j++) {
      for (let i = 0; i < band.width; i++, k++) {
        layer.shade[k] = shadeAt(
          model,
          Math.round((band.x + i + 0.5) * band.mmPerPixelX * 100) / 100,
          Math.round((band.y + j + 0.5) * band.mmPerPixelY * 100) / 100,
          band,
        );
      }
    }
  },
});
