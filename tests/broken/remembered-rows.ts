import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

const rows = new Map<string, Float32Array>();

/** Remembers every band by where it is: as many as a tile has. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    rows.set(JSON.stringify([model.waves, band]), layer.shade.slice());
  },
});
