import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Smooths along a row and begins afresh with every band. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    for (let j = 0; j < band.height; j++) {
      for (let i = 1; i < band.width; i++) {
        const k = j * band.width + i;
        layer.shade[k] = (layer.shade[k] + layer.shade[k - 1]) / 2;
      }
    }
  },
});
