import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Declares a plane that it never paints. */
export default defineEffect({
  ...ripple,
  planes: ['shade', 'load'],
  paint(model, band, layer) {
    paintRipple(model, band, layer);
  },
});
