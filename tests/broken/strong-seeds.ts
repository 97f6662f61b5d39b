import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Draws from the seed how strong all of its waves are. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    const strength = 0.05 + 0.95 * setting.random('strength').next();
    return { ...model, height: model.height * strength };
  },
});
