import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

const kept: Float32Array[] = [];

/** Keeps every band it ever painted. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    kept.push(layer.shade.slice());
  },
});
