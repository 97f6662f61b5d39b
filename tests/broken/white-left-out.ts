import { colour, defineEffect, parseHex } from 'tenter';
import { PARAMETERS, paintInk, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** Holds white ink for none: laid over artwork as ink is, it covers. */
export default defineEffect({
  apiVersion: ripple.apiVersion,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: { ...PARAMETERS, ink: colour({ default: '#2c4a7c', help: 'Colour of the ink.' }) },
  planes: ['shade', 'tint'],
  planesFor: ({ ink }) => (ink === '#ffffff' ? ['shade'] : ['shade', 'tint']),
  prepare: (setting) => ({ ...prepareRipple(setting), ink: [...parseHex(setting.parameters.ink)] }),
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    const { tint } = layer as { tint?: Float32Array };
    if (tint) paintInk(model, band, { tint }, model.ink);
  },
});
