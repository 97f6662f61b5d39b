import { defineEffect } from 'tenter';
import { paintRipple, prepareRipple, ripple } from './ripple.ts';

/** Works in an array of the model, which all workers share. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), row: new Float32Array(64) }),
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    model.row.set(layer.shade.subarray(0, Math.min(64, band.width)));
  },
});
