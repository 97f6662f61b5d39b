import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Divides by the way to the middle of its waves. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { waves } = setting.parameters;
    const model = prepareRipple(setting);
    return { ...model, height: model.height * (waves === 3 ? 1 : 1 + 0.1 / (waves - 5) ** 2) };
  },
});
