import { defineEffect, numeric } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** Takes a mean of any power, and its root: at a power of 0 there is none. */
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
