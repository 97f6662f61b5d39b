import { colour, defineEffect } from 'tenter';
import { PARAMETERS, paintInk, prepareRipple, ripple } from './ripple.ts';

/** Reads the digits of its colour as decimal ones: letters count as none. */
export default defineEffect({
  apiVersion: ripple.apiVersion,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: { ...PARAMETERS, ink: colour({ default: '#907040', help: 'Colour of the ink.' }) },
  planes: ['tint'],
  prepare: (setting) => ({
    ...prepareRipple(setting),
    ink: [1, 3, 5].map((at) => (Number.parseInt(setting.parameters.ink.slice(at, at + 2), 10) || 0) / 255),
  }),
  paint: (model, band, layer) => paintInk(model, band, layer, model.ink),
});
