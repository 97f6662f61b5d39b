import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Where pixels are fine every other column, as the band counts them, is drawn from the one before. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    if (band.mmPerPixelX > 0.05) return;
    for (let k = 0; k < layer.shade.length; k++)
      if ((k % band.width) % 2) layer.shade[k] = layer.shade[k - 1];
  },
});
