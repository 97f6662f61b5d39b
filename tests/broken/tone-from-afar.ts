import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** A tone that jumps below 42 dpi. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    if (band.mmPerPixelX > 25.4 / 42) for (let k = 0; k < layer.shade.length; k++) layer.shade[k] *= 0.9;
  },
});
