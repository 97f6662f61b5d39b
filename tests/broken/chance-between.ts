import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Throws dice where two parameters are in the middle of their ranges. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    const { height, depth } = setting.parameters;
    const isBetween = height >= 0.4 && height < 0.9 && depth < 0.1 && depth > 0;
    return isBetween ? { ...model, height: height * Math.random() } : model;
  },
});
