import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Looks at the first letters of a seed. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const letters = [...setting.seed.slice(0, 32)];
    const start = letters.reduce((sum, letter) => (31 * sum + letter.charCodeAt(0)) % 997, 1);
    const model = prepareRipple(setting);
    const waves = model.waves.map((_, k) => [k + 1, 2 - k, (start * (k + 1)) / 997] as const);
    return { ...model, waves };
  },
});
