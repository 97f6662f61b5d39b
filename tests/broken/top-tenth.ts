import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Clamps a number before the end of its range. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    return { ...model, height: Math.min(0.89, model.height) };
  },
});
