import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Divides by the paint that lies below, of which there may be none. */
export default defineEffect({
  ...ripple,
  apiVersion: 2,
  reads: ['load'],
  paint(model, band, layer, below) {
    paintRipple(model, band, layer);
    for (let k = 0; k < layer.shade.length; k++) layer.shade[k] *= Math.min(1, below.load[k]) / below.load[k];
  },
});
