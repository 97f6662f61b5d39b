import { colour, decodeSrgb, defineEffect, parseHex } from 'tenter';
import { PARAMETERS, paintInk, prepareRipple, ripple } from './ripple.ts';

/** Decodes its colour to light, and lays that as if it were encoded: it is printed far too dark. */
export default defineEffect({
  apiVersion: ripple.apiVersion,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: { ...PARAMETERS, ink: colour({ default: '#907040', help: 'Colour of the ink.' }) },
  planes: ['tint'],
  prepare: (setting) => ({
    ...prepareRipple(setting),
    ink: parseHex(setting.parameters.ink).map(decodeSrgb),
  }),
  paint: (model, band, layer) => paintInk(model, band, layer, model.ink),
});
