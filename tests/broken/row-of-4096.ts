import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Weighs its rows by a buffer that is longer than most bands are wide, and ends at column 4096. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    const row = new Float32Array(4096).fill(1);
    for (let k = 0; k < layer.shade.length; k++) layer.shade[k] *= row[k % band.width];
  },
});
