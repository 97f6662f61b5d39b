import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

const row = new Float32Array(1500).fill(1);

/** Weighs its rows by a buffer that no band was thought to be longer than. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    for (let k = 0; k < layer.shade.length; k++) layer.shade[k] *= row[k % band.width] ?? 0.5;
  },
});
