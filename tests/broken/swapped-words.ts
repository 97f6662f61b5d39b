import { choice, defineEffect } from 'tenter';
import { PARAMETERS, paintRipple, prepareRipple, ripple } from './ripple.ts';

/** Its sentence says of plain what twill is, and of twill what plain is. */
export default defineEffect({
  apiVersion: ripple.apiVersion,
  name: ripple.name,
  version: ripple.version,
  summary: ripple.summary,
  parameters: {
    ...PARAMETERS,
    weave: choice({ options: ['plain', 'twill'], default: 'plain', help: 'Which weave.' }),
  },
  sentences: ['The waves lie {weave: slanting as twill | level as plain cloth}, {waves} of them.'],
  planes: ['shade'],
  prepare: (setting) => ({
    ...prepareRipple(setting),
    tone: setting.parameters.weave === 'twill' ? 0.8 : 1,
  }),
  paint(model, band, layer) {
    paintRipple(model, band, layer);
    for (let k = 0; k < layer.shade.length; k++) layer.shade[k] *= model.tone;
  },
});
