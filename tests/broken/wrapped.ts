import { defineEffect, homeParts } from 'tenter';
import { overLattice, prepareRipple, ripple, shadeAt } from './ripple.ts';

/** Brings places home into the box, but draws there what does not run on across its edges. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const box = { ...setting.box, width: 61.7, height: 53.3 };
    return { ...prepareRipple({ ...setting, box }), home: setting.box.lattice };
  },
  paint(model, band, layer) {
    const waves = overLattice(model, { ax: 61.7, ay: 0, bx: 0, by: 53.3 });
    for (const { x, y, width, height, at } of homeParts(band, model.home)) {
      for (let j = 0; j < height; j++) {
        for (let i = 0; i < width; i++) {
          const [mmX, mmY] = [(x + i + 0.5) * band.mmPerPixelX, (y + j + 0.5) * band.mmPerPixelY];
          layer.shade[at + j * band.width + i] = shadeAt(waves, mmX, mmY, band);
        }
      }
    }
  },
});
