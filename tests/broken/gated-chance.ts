import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Throws dice only for the highest waves. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    return model.height === 1 ? { ...model, depth: 0.4 * Math.random() } : model;
  },
});
