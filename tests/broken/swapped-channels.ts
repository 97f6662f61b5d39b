import { colour, defineEffect, parseHex } from 'tenter';
import { PARAMETERS, paintInk, prepareRipple, ripple } from './ripple.ts';

/** Takes the channels of its colour in the other order. */
export default defineEffect({
  apiVersion: ripple.apiVersion,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: { ...PARAMETERS, ink: colour({ default: '#2c4a7c', help: 'Colour of the ink.' }) },
  planes: ['tint'],
  prepare: (setting) => ({ ...prepareRipple(setting), ink: [...parseHex(setting.parameters.ink)].reverse() }),
  paint: (model, band, layer) => paintInk(model, band, layer, model.ink),
});
