import { defineEffect, homeParts } from 'tenter';
import { prepareRipple, ripple, shadeAt } from './ripple.ts';

const STRIPE_MM = 3.1;

/** Stripes of a width that no box holds a whole number of: the last one is narrower. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), home: setting.box.lattice }),
  paint(model, band, layer) {
    for (const { x, y, width, height, at } of homeParts(band, model.home)) {
      for (let j = 0; j < height; j++) {
        for (let i = 0; i < width; i++) {
          const [mmX, mmY] = [(x + i + 0.5) * band.mmPerPixelX, (y + j + 0.5) * band.mmPerPixelY];
          const stripe = 1 + 0.1 * Math.cos((2 * Math.PI * mmX) / STRIPE_MM);
          layer.shade[at + j * band.width + i] = stripe * shadeAt(model, mmX, mmY, band);
        }
      }
    }
  },
});
