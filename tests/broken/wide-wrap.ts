import { defineEffect } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Looks its ground up in a table of 256 cells of 2 mm: past 512 mm it begins again, wherever the box ends. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    const { ax, by } = model.lattice;
    if (Math.max(ax, by) <= 512) return;
    for (let k = 0; k < layer.shade.length; k++) {
      const x = (band.x + (k % band.width) + 0.5) * band.mmPerPixelX;
      layer.shade[k] += 0.05 * Math.cos((2 * Math.PI * x) / 512);
    }
  },
});
