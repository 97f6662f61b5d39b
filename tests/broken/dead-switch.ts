import { defineEffect, toggle } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** A switch that changes nothing. */
export default defineEffect({
  apiVersion: ripple.apiVersion,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: { ...PARAMETERS, tone: toggle({ default: false, help: 'Whether it is light.' }) },
  planes: ['shade'],
  prepare: (setting) => ({ ...prepareRipple(setting), tone: setting.parameters.tone ? 0.9 : 0.9 }),
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    for (let k = 0; k < layer.shade.length; k++) layer.shade[k] *= model.tone;
  },
});
