import { defineEffect } from 'tenter';
import { paintRipple, prepareRipple, ripple } from './ripple.ts';

/** The waves of its sketch stand where they should, half as strong. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    return setting.quality === 'sketch' ? { ...model, height: model.height / 2 } : model;
  },
  paint: paintRipple,
});
