import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Divides by its samples per pixel, a count that rounds to none above 850 dpi. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    const samples = Math.min(4, Math.round(band.mmPerPixelX / 0.06));
    for (let k = 0; k < layer.shade.length; k++) {
      let sum = 0;
      for (let turn = 0; turn < samples; turn++) sum += layer.shade[k];
      layer.shade[k] = sum / samples;
    }
  },
});
