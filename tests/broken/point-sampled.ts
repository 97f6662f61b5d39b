import { defineEffect, homeParts } from 'tenter';
import { paintRipple, ripple, turnsFor } from './ripple.ts';

/** A fine rib, finer than a coarse pixel, taken at the pixel's centre instead of its mean. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    const { ax, by } = model.lattice;
    const [ribs, rows] = [turnsFor(ax, 6 / 0.31), turnsFor(by, 6 / 0.29)];
    for (const { x, y, width, height, at } of homeParts(band, model.lattice)) {
      for (let j = 0; j < height; j++) {
        for (let i = 0; i < width; i++) {
          const rib = Math.cos((2 * Math.PI * ribs * (x + i + 0.5) * band.mmPerPixelX) / ax);
          const row = Math.cos((2 * Math.PI * rows * (y + j + 0.5) * band.mmPerPixelY) / by);
          layer.shade[at + j * band.width + i] += 0.4 * (1 + rib * row);
        }
      }
    }
  },
});
