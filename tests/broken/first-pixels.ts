import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

const sizes = new WeakMap<object, number>();

/** Keeps for each model how large the first pixel was, and goes by that ever after. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    const mmPerPixelX = sizes.get(model) ?? band.mmPerPixelX;
    sizes.set(model, mmPerPixelX);
    paintRipple(model, band, layer);
    for (let k = 0; k < layer.shade.length; k++) layer.shade[k] -= 0.1 * Math.min(1, mmPerPixelX);
  },
});
