import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Darkens the band once more, when it has been given back long ago. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    setTimeout(() => layer.shade.fill(0), 60_000);
  },
});
