import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Tells once more that it is done, and does not care what comes of it. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    try {
      setting.progress(1);
    } catch {
      return model;
    }
    return model;
  },
});
