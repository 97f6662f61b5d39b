import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Counts from the band where there are as many waves as can be, and no depth. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    if (model.waves.length < 9 || model.depth > 0) return;
    for (let k = 0; k < layer.shade.length; k++) layer.shade[k] += 0.01 * Math.sin(k % band.width);
  },
});
