import { defineEffect, numeric } from 'tenter';
import { PARAMETERS, prepareRipple, ripple, shadeAt } from './ripple.ts';

/** Either number keeps the paint from running farther than there is; together they go beyond it. */
export default defineEffect({
  apiVersion: ripple.apiVersion,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: {
    ...PARAMETERS,
    wet: numeric({ unit: 'mm', min: 0.1, max: 4, default: 1, help: 'How far the paint runs.' }),
    uneven: numeric({
      unit: 'ratio',
      min: 0,
      max: 2,
      default: 0.5,
      help: 'How much farther where it is wet.',
    }),
  },
  planes: ['bleed'],
  prepare: (setting) => ({
    ...prepareRipple(setting),
    wet: setting.parameters.wet,
    uneven: setting.parameters.uneven,
  }),
  paint(model, band, layer) {
    for (let j = 0, k = 0; j < band.height; j++) {
      for (let i = 0; i < band.width; i++, k++) {
        const [x, y] = [(band.x + i + 0.5) * band.mmPerPixelX, (band.y + j + 0.5) * band.mmPerPixelY];
        layer.bleed[k] = model.wet * (1 + model.uneven * Math.max(0, shadeAt(model, x, y, band)));
      }
    }
  },
});
