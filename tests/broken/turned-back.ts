import { addFractalRow, defineEffect, fractalNoise, fractalOnPixels, numeric } from 'tenter';

/** Its angles go against the clock. */
export default defineEffect({
  apiVersion: 1,
  name: 'turned-back',
  version: '1.0.0',
  summary: 'Fine streaks that all slant one way.',
  parameters: {
    direction: numeric({ unit: 'deg', min: 0, max: 90, default: 30, help: 'Where the streaks run.' }),
  },
  planes: ['shade'],
  prepare: ({ box, random, parameters }) =>
    fractalNoise(
      box.lattice,
      { along: 20, across: 0.8, direction: -parameters.direction },
      { octaves: 2, gain: 0.5, deviation: 0.08 },
      random('streaks'),
    ),
  paint(model, { x, y, width, height, mmPerPixelX, mmPerPixelY }, layer) {
    const streaks = fractalOnPixels(model, mmPerPixelX, mmPerPixelY);
    const left = (x + 0.5) * mmPerPixelX;
    for (let row = 0; row < height; row++) {
      const down = (y + row + 0.5) * mmPerPixelY;
      addFractalRow(streaks, left, mmPerPixelX, down, 1, layer.shade, width, row * width);
    }
  },
});
