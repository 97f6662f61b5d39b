import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Clears the whole memory that its plane lies in, and not only the plane. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    new Float32Array(layer.shade.buffer).fill(1);
    paintRipple(model, band, layer);
  },
});
