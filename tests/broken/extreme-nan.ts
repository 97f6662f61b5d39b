import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Divides by the height of the waves, which may be 0. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    return { ...model, depth: model.depth * (model.height / model.height) };
  },
});
