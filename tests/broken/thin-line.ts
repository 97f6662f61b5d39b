import { defineEffect } from 'tenter';
import { ripple, shadeAt } from './ripple.ts';

/** Hard edges at places kept in hundredths of a mm: here and there an edge falls into the next pixel. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    for (let j = 0, k = 0; j < band.height; j++) {
      for (let i = 0; i < band.width; i++, k++) {
        const x = Math.round((band.x + i + 0.5) * band.mmPerPixelX * 200) / 200;
        const y = Math.round((band.y + j + 0.5) * band.mmPerPixelY * 200) / 200;
        layer.shade[k] = shadeAt(model, x, y, band) > 0.8 ? 0.9 : 0.7;
      }
    }
  },
});
