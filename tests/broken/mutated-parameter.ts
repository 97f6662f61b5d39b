import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Clamps a parameter in place. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    (setting.parameters as { height: number }).height = Math.min(0.4, setting.parameters.height);
    return prepareRipple(setting);
  },
});
