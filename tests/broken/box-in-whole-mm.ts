import { defineEffect } from 'tenter';
import { prepareRipple, type Ripple, ripple } from './ripple.ts';

const made = new Map<string, Ripple>();

/** Finds waves again by the box rounded to whole mm. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { width, height, layout } = setting.box;
    const key = JSON.stringify([
      setting.seed,
      Math.round(width),
      Math.round(height),
      layout,
      setting.parameters,
    ]);
    const model = made.get(key) ?? prepareRipple(setting);
    made.set(key, model);
    return model;
  },
});
