import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Forgets in the finished texture how deep its ground is. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const depth = setting.quality === 'sketch' ? setting.parameters.depth : 0.2;
    return { ...prepareRipple(setting), depth };
  },
});
