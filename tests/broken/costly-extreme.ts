import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Adds up thousands of sines for every pixel where it has as many waves as can be. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    if (model.waves.length < 9) return;
    for (let k = 0; k < layer.shade.length; k++) {
      let sum = 0;
      for (let turn = 0; turn < 6000; turn++) sum += Math.sin(turn * 1.7 + k);
      layer.shade[k] += sum * 1e-9;
    }
  },
});
