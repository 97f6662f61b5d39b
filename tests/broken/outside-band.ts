import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Marks the end of every row, one column too far. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    for (let j = 0; j < band.height; j++) layer.shade[(j + 1) * band.width] = 0.5;
    paintRipple(model, band, layer);
  },
});
