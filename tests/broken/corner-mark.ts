import { defineEffect, homeParts } from 'tenter';
import { prepareRipple, ripple, shadeAt } from './ripple.ts';

/** Draws a dark line, 0.4 mm wide and 6 mm long, in one corner of every repeat. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), home: setting.box.lattice }),
  paint(model, band, layer) {
    for (const { x, y, width, height, at } of homeParts(band, model.home)) {
      for (let j = 0; j < height; j++) {
        for (let i = 0; i < width; i++) {
          const [mmX, mmY] = [(x + i + 0.5) * band.mmPerPixelX, (y + j + 0.5) * band.mmPerPixelY];
          const line = mmX < 0.4 && mmY < 6 ? 0.6 : 1;
          layer.shade[at + j * band.width + i] = line * shadeAt(model, mmX, mmY, band);
        }
      }
    }
  },
});
