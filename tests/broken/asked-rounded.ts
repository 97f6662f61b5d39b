import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Says that a rounded number was asked. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { height } = setting.parameters;
    setting.report({ name: 'height', value: 0.45, unit: 'ratio', asked: Math.round(height) });
    return prepareRipple(setting);
  },
});
