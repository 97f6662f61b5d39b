import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Takes a seed that is a number for its lowest 32 bits. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const bits = Number(setting.seed) | 0;
    const model = prepareRipple(setting);
    if (bits === 0) return model;
    const waves = model.waves.map((_, k) => [k + 1, 2 - k, (bits * (k + 1)) / 1009] as const);
    return { ...model, waves };
  },
});
