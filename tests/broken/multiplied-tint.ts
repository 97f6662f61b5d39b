import { colour, defineEffect, parseHex } from 'tenter';
import { PARAMETERS, paintInk, prepareRipple, ripple } from './ripple.ts';

/** Its colour is multiplied by its alpha already, so that it is laid too dark where it is thin. */
export default defineEffect({
  apiVersion: ripple.apiVersion,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: { ...PARAMETERS, ink: colour({ default: '#2c4a7c', help: 'Colour of the ink.' }) },
  planes: ['tint'],
  prepare: (setting) => ({ ...prepareRipple(setting), ink: [...parseHex(setting.parameters.ink)] }),
  paint(model, band, layer) {
    paintInk(model, band, layer, model.ink);
    for (let k = 0; k < layer.tint.length; k++) if (k % 4 < 3) layer.tint[k] *= layer.tint[k - (k % 4) + 3];
  },
});
