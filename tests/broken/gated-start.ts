import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Darkens a little from the top of every band, but only where a single wave runs on the darkest ground. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    if (model.depth < 0.4 || model.waves.length > 1) return;
    for (let k = 0; k < band.width; k++) layer.shade[k] *= 0.99;
  },
});
