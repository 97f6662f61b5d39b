import { defineEffect, homeParts } from 'tenter';
import { prepareRipple, ripple, shadeAt } from './ripple.ts';

/** In a drop it takes the root of a negative number where nobody looks for one: 0.3 mm about the middle. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), hole: setting.box.lattice.ay === 0 ? 0 : 0.09 }),
  paint(model, band, layer) {
    const { ax, by } = model.lattice;
    for (const { x, y, width, height, at } of homeParts(band, model.lattice)) {
      for (let j = 0; j < height; j++) {
        for (let i = 0; i < width; i++) {
          const [mmX, mmY] = [(x + i + 0.5) * band.mmPerPixelX, (y + j + 0.5) * band.mmPerPixelY];
          const far = Math.sqrt((mmX - ax / 2) ** 2 + (mmY - by / 2) ** 2 - model.hole);
          layer.shade[at + j * band.width + i] = Math.min(1, 0.5 + far) * shadeAt(model, mmX, mmY, band);
        }
      }
    }
  },
});
