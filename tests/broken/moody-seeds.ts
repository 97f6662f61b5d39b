import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Draws from the seed how dark all of its ground is. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    return { ...model, depth: model.depth + 0.55 * setting.random('mood').next() };
  },
});
