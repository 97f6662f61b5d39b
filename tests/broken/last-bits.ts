import { defineEffect } from 'tenter';
import { ripple, shadeAt } from './ripple.ts';

/** Closes in the algebra, but not in the last bits: places far out are rounded to 32 bits. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    for (let j = 0, k = 0; j < band.height; j++) {
      for (let i = 0; i < band.width; i++, k++) {
        layer.shade[k] = shadeAt(
          model,
          Math.fround((band.x + i + 0.5) * band.mmPerPixelX),
          Math.fround((band.y + j + 0.5) * band.mmPerPixelY),
          band,
        );
      }
    }
  },
});
