import { type AnyLayer, defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Thins the paint, too, without having said so. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    (layer as AnyLayer).load!.fill(0.5);
  },
});
