import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Puts a plane into the layer that it was not given. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    Object.assign(layer, { load: new Float32Array(band.width * band.height).fill(0.5) });
  },
});
