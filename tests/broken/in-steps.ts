import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Rounds a number to steps of an eighth of its range. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    return { ...model, height: Math.round(8 * model.height) / 8 };
  },
});
