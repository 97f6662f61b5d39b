import { choice, defineEffect } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** An option that does what another one does. */
export default defineEffect({
  apiVersion: ripple.apiVersion,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: {
    ...PARAMETERS,
    tone: choice({ options: ['light', 'dark', 'darker'], default: 'light', help: 'How dark it is.' }),
  },
  planes: ['shade'],
  prepare: (setting) => ({ ...prepareRipple(setting), tone: setting.parameters.tone === 'light' ? 1 : 0.9 }),
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    for (let k = 0; k < layer.shade.length; k++) layer.shade[k] *= model.tone;
  },
});
