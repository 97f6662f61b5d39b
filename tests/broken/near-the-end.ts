import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Takes the root of what falls below nothing in the last hundredth before the end. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { height } = setting.parameters;
    const model = prepareRipple(setting);
    return { ...model, depth: model.depth + (height < 1 ? 0 * Math.sqrt(0.989 - height) : 0) };
  },
});
