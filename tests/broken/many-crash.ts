import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Has no waves to take where as many as can be are asked for, and throws. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    const last = model.waves[[0, 1, 2, 3, 4, 5, 6, 7][setting.parameters.waves - 1]];
    return { ...model, phase: last[2] };
  },
});
