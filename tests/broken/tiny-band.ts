import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Takes one tone for a band that is too small to see anything in. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    if (band.width > 1 && band.height > 1 && band.width * band.height < 30) layer.shade.fill(layer.shade[0]);
  },
});
