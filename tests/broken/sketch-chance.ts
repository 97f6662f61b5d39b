import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Throws dice for a sketch alone, where a quick throw seemed to do. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    return setting.quality === 'sketch' ? { ...model, depth: 0.2 * Math.random() } : model;
  },
});
