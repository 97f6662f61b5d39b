import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Stops after 700 rows. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    const height = Math.min(band.height, 700);
    const upper = { ...layer, height, shade: layer.shade.subarray(0, height * band.width) };
    paintRipple(model, { ...band, height }, upper);
  },
});
