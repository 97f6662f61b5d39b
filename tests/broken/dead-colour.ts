import { colour, defineEffect } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** A colour that is never looked at. */
export default defineEffect({
  apiVersion: ripple.apiVersion,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: { ...PARAMETERS, tone: colour({ default: '#806040', help: 'Colour of the ground.' }) },
  planes: ['shade'],
  prepare: (setting) => ({ ...prepareRipple(setting), tone: 0.9 }),
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    for (let k = 0; k < layer.shade.length; k++) layer.shade[k] *= model.tone;
  },
});
