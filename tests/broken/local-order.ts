import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Sorts letters as people do here; elsewhere z comes before t. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    const place = ['t', 'z', 'a'].sort((a, b) => a.localeCompare(b)).indexOf('z');
    return { ...model, depth: model.depth + 0.02 * place };
  },
});
