import { addFractalRow, defineEffect, fractalNoise } from 'tenter';
import { paintRipple, prepareRipple, ripple } from './ripple.ts';

/** Fainter and coarser grain, half a mm, that keeps its whole contrast at 30 dpi. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({
    ...prepareRipple(setting),
    grain: fractalNoise(
      setting.box.lattice,
      { along: 0.5, across: 0.5 },
      { octaves: 1, gain: 0.5 },
      setting.random('grain'),
    ),
  }),
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    const { width, mmPerPixelX, mmPerPixelY } = band;
    const row = new Float32Array(width);
    for (let j = 0; j < band.height; j++) {
      row.fill(0);
      const y = (band.y + j + 0.5) * mmPerPixelY;
      addFractalRow(model.grain, (band.x + 0.5) * mmPerPixelX, mmPerPixelX, y, 0.08, row, width);
      for (let i = 0; i < width; i++)
        layer.shade[j * width + i] = Math.max(0, layer.shade[j * width + i] + row[i]);
    }
  },
});
