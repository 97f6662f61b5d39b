import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Shares out what waves there are anew, and writes that into the model, where pixels are fine. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    if (band.mmPerPixelX < 0.05) (model.waves as unknown as number[][]).at(-1)![2] += 1;
    paintRipple(model, band, layer);
  },
});
