import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Reports what was asked as what came, and the other way round. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { box, parameters, report } = setting;
    const came = (Math.round(parameters.depth * box.width) || 1) / box.width;
    report({ name: 'ground', value: parameters.depth, unit: 'ratio', asked: came });
    return prepareRipple(setting);
  },
});
