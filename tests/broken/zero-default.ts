import { defineEffect, numeric } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** Takes 0 for a value that was not given. */
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
  prepare: (setting) => ({ ...prepareRipple(setting), tone: 0.6 + (setting.parameters.tone || 0.4) / 2 }),
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    for (let k = 0; k < layer.shade.length; k++) layer.shade[k] *= model.tone;
  },
});
