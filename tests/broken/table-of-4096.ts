import { defineEffect, homeParts } from 'tenter';
import { paintRipple, prepareRipple, ripple, turnsFor } from './ripple.ts';

const SIDE = 9;

/** Squares with a tone each, of a table that 4,096 of them fill: a tile of 600 mm has more. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const stream = setting.random('tones');
    const tones = Float32Array.from({ length: 4096 }, () => stream.between(0.9, 1));
    return { ...prepareRipple(setting), tones };
  },
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    const { ax, by } = model.lattice;
    const across = Math.max(1, turnsFor(ax, 6 / SIDE));
    const down = Math.max(1, turnsFor(by, 6 / SIDE));
    for (const { x, y, width, height, at } of homeParts(band, model.lattice)) {
      for (let j = 0; j < height; j++) {
        const row = Math.min(down - 1, Math.floor(((y + j + 0.5) * band.mmPerPixelY * down) / by));
        for (let i = 0; i < width; i++) {
          const column = Math.min(across - 1, Math.floor(((x + i + 0.5) * band.mmPerPixelX * across) / ax));
          layer.shade[at + j * band.width + i] *= model.tones[row * across + column];
        }
      }
    }
  },
});
