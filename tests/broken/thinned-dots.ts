import { defineEffect, homeParts } from 'tenter';
import { paintRipple, ripple, turnsFor } from './ripple.ts';

const APART = 6;
const RADIUS = 1;

/** Strews dots whose soft edge lies within them, a pixel wide: the coarser the pixel, the less is left of a dot. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple({ ...model, height: 0, depth: 0 }, band, layer);
    const { ax, by } = model.lattice;
    const [mmX, mmY] = [ax / Math.max(1, turnsFor(ax, 6 / APART)), by / Math.max(1, turnsFor(by, 6 / APART))];
    for (const { x, y, width, height, at } of homeParts(band, model.lattice)) {
      for (let j = 0; j < height; j++) {
        for (let i = 0; i < width; i++) {
          const right = (((x + i + 0.5) * band.mmPerPixelX) % mmX) - mmX / 2;
          const down = (((y + j + 0.5) * band.mmPerPixelY) % mmY) - mmY / 2;
          const inside = (RADIUS - Math.hypot(right, down)) / Math.max(0.1, band.mmPerPixelX);
          layer.shade[at + j * band.width + i] -= 0.5 * Math.min(1, Math.max(0, inside));
        }
      }
    }
  },
});
