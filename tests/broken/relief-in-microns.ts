import { defineEffect } from 'tenter';
import { prepareRipple, ripple, shadeAt } from './ripple.ts';

/** Says in micrometres how high it stands. */
export default defineEffect({
  ...ripple,
  apiVersion: 2,
  planes: ['relief'],
  prepare: prepareRipple,
  paint(model, band, layer) {
    for (let j = 0, k = 0; j < band.height; j++) {
      for (let i = 0; i < band.width; i++, k++) {
        const [x, y] = [(band.x + i + 0.5) * band.mmPerPixelX, (band.y + j + 0.5) * band.mmPerPixelY];
        layer.relief[k] = 300 * (shadeAt(model, x, y, band) - 0.8);
      }
    }
  },
});
