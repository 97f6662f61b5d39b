import { type AnyLayer, defineEffect, numeric } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** Leaves its load out where there is little of it, though it is seen. */
export default defineEffect({
  apiVersion: ripple.apiVersion,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: {
    ...PARAMETERS,
    dye: numeric({ unit: 'ratio', min: 0, max: 1, default: 0.6, help: 'How much dye it took.' }),
  },
  planes: ['shade', 'load'],
  planesFor: ({ dye }) => (dye < 0.3 ? ['shade'] : ['shade', 'load']),
  prepare: (setting) => ({ ...prepareRipple(setting), dye: setting.parameters.dye }),
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    (layer as AnyLayer).load?.fill(1 + model.dye);
  },
});
