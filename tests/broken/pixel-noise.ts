import { defineEffect, homeParts } from 'tenter';
import { paintRipple, ripple } from './ripple.ts';

/** Grains of three pixels, whatever a pixel is. */
export default defineEffect({
  ...ripple,
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    for (const { x, y, width, height, at } of homeParts(band, model.lattice)) {
      for (let j = 0; j < height; j++) {
        for (let i = 0; i < width; i++) {
          const cell = Math.floor((x + i) / 3) * 374_761_393 + Math.floor((y + j) / 3) * 668_265_263;
          const mixed = Math.imul(cell ^ (cell >>> 13), 1_274_126_177);
          layer.shade[at + j * band.width + i] += (model.height * (mixed >>> 0)) / 2 ** 33;
        }
      }
    }
  },
});
