import { defineEffect, homeParts } from 'tenter';
import { prepareRipple, ripple, shadeAt } from './ripple.ts';

const THREAD_MM = 2.3;

/** Threads counted from the top: the last one is cut off. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), home: setting.box.lattice }),
  paint(model, band, layer) {
    for (const { x, y, width, height, at } of homeParts(band, model.home)) {
      for (let j = 0; j < height; j++) {
        for (let i = 0; i < width; i++) {
          const [mmX, mmY] = [(x + i + 0.5) * band.mmPerPixelX, (y + j + 0.5) * band.mmPerPixelY];
          const thread = 1 + 0.1 * Math.cos((2 * Math.PI * mmY) / THREAD_MM);
          layer.shade[at + j * band.width + i] = thread * shadeAt(model, mmX, mmY, band);
        }
      }
    }
  },
});
