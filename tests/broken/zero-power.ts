import { defineEffect, numeric } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** A mean of any power, which has a formula of its own at 0: inside the range, and neither an end nor the middle of it. */
export default defineEffect({
  apiVersion: ripple.apiVersion,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: {
    ...PARAMETERS,
    power: numeric({
      unit: 'ratio',
      min: -1,
      max: 3,
      default: 1,
      help: 'Low: the darker wins. High: the lighter.',
    }),
  },
  planes: ['shade'],
  prepare: (setting) => ({ ...prepareRipple(setting), power: setting.parameters.power }),
  paint(model, band, layer) {
    const { power } = model;
    paintRipple(model, band, layer);
    for (let k = 0; k < layer.shade.length; k++) {
      layer.shade[k] = ((Math.max(0.1, layer.shade[k]) ** power + 1) / 2) ** (1 / power);
    }
  },
});
