import { defineEffect } from 'tenter';
import { prepareRipple, type Ripple, ripple } from './ripple.ts';

const table = new Map<string, Ripple['waves']>();

/** Keeps a table of waves by seed and count, though they were made for a box. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const key = `${setting.seed} ${setting.parameters.waves}`;
    const model = prepareRipple(setting);
    const waves = table.get(key) ?? model.waves;
    table.set(key, waves);
    return { ...model, waves };
  },
});
