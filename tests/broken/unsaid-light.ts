import { API_VERSION, defineEffect, numeric } from 'tenter';
import { PARAMETERS, prepareRipple, ripple } from './ripple.ts';
import { paintLit } from './turns-back.ts';

/** Lights itself by a parameter, and does not say so: the light of a recipe passes it by. */
export default defineEffect({
  apiVersion: API_VERSION,
  name: 'unsaid-light',
  version: '1.0.0',
  summary: ripple.summary,
  planes: ['shade'],
  parameters: {
    ...PARAMETERS,
    light: numeric({ unit: 'deg', min: 0, max: 360, default: 0, help: 'Where the light comes from.' }),
  },
  prepare: (setting) => ({ ripple: prepareRipple(setting), light: setting.parameters.light }),
  paint({ ripple: model, light }, band, layer) {
    paintLit(model, light, band, layer);
  },
});
