import { defineEffect, numeric } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** A number that is never looked at. */
export default defineEffect({
  apiVersion: ripple.apiVersion,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: {
    ...PARAMETERS,
    tone: numeric({ unit: 'ratio', min: 0, max: 1, default: 0.5, help: 'How light it is.' }),
  },
  planes: ['shade'],
  prepare: (setting) => ({ ...prepareRipple(setting), tone: 0.9 }),
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    for (let k = 0; k < layer.shade.length; k++) layer.shade[k] *= model.tone;
  },
});
