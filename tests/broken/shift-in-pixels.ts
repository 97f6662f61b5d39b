import { defineEffect } from 'tenter';
import { prepareRipple, ripple, shadeAt } from './ripple.ts';

/** Says in pixels how far it moves the paint: at half the density half as far. */
export default defineEffect({
  ...ripple,
  planes: ['shift'],
  prepare: prepareRipple,
  paint(model, band, layer) {
    for (let j = 0, k = 0; j < band.height; j++) {
      for (let i = 0; i < band.width; i++, k += 2) {
        const [x, y] = [(band.x + i + 0.5) * band.mmPerPixelX, (band.y + j + 0.5) * band.mmPerPixelY];
        const moved = 3 * (shadeAt(model, x, y, band) - 0.8);
        layer.shift[k] = moved / band.mmPerPixelX;
        layer.shift[k + 1] = moved / band.mmPerPixelY;
      }
    }
  },
});
