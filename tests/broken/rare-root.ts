import { addFractalRow, defineEffect, type FractalNoise, fractalNoise, fractalOnPixels } from 'tenter';
import { paintRipple, prepareRipple, type Ripple, ripple } from './ripple.ts';

interface Grained extends Ripple {
  readonly grain: FractalNoise;
}

/** Takes the root of noise that hardly ever falls so low: once in some square decimetres it does. */
export default defineEffect({
  ...ripple,
  prepare: (setting): Grained => ({
    ...prepareRipple(setting),
    grain: fractalNoise(
      setting.box.lattice,
      { along: 4, across: 4 },
      { octaves: 1, gain: 0.5 },
      setting.random('grain'),
    ),
  }),
  paint(model: Grained, band, layer) {
    const { width, height, mmPerPixelX, mmPerPixelY } = band;
    const grain = fractalOnPixels(model.grain, mmPerPixelX, mmPerPixelY);
    const row = new Float64Array(width);
    paintRipple(model, band, layer);
    for (let j = 0, k = 0; j < height; j++) {
      const y = (band.y + j + 0.5) * mmPerPixelY;
      addFractalRow(grain, (band.x + 0.5) * mmPerPixelX, mmPerPixelX, y, 1, row.fill(0), width);
      for (let i = 0; i < width; i++, k++) layer.shade[k] *= 0.9 + Math.sqrt(3 + row[i]) / 20;
    }
  },
});
