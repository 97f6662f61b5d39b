import { defineEffect, numeric } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** A number that changes nothing once it is high. */
export default defineEffect({
  apiVersion: ripple.apiVersion,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: {
    ...PARAMETERS,
    tone: numeric({ unit: 'ratio', min: 0, max: 1, default: 0.4, help: 'How light it is.' }),
  },
  planes: ['shade'],
  prepare: (setting) => ({
    ...prepareRipple(setting),
    tone: 0.6 + Math.min(0.7, setting.parameters.tone) / 2,
  }),
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    for (let k = 0; k < layer.shade.length; k++) layer.shade[k] *= model.tone;
  },
});
