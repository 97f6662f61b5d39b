import { colour, defineEffect } from 'tenter';
import { PARAMETERS, paintInk, prepareRipple, ripple } from './ripple.ts';

/** Reads the blue of its colour from the digits of the green. */
export default defineEffect({
  apiVersion: ripple.apiVersion,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: { ...PARAMETERS, ink: colour({ default: '#2c4a7c', help: 'Colour of the ink.' }) },
  planes: ['tint'],
  prepare: (setting) => ({ ...prepareRipple(setting), ink: channelsOf(setting.parameters.ink) }),
  paint: (model, band, layer) => paintInk(model, band, layer, model.ink),
});

function channelsOf(hex: string): number[] {
  return [1, 3, 3].map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255);
}
