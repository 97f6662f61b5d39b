import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Looks different every hour. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple({ ...model, depth: new Date().getHours() / 60 }, band, layer);
  },
});
