import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

type Grown = ReturnType<typeof prepareRipple> & { depth: number };

const kept = new Map<string, Grown>();

/** Keeps a model from its first row on; where a render is given up, the next one finds it half grown. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { box, parameters, seed, quality, progress } = setting;
    const key = JSON.stringify([box, parameters, seed, quality]);
    const found = kept.get(key);
    if (found) return found;
    const model: Grown = { ...prepareRipple({ ...setting, progress: () => {} }), depth: 0 };
    kept.clear();
    kept.set(key, model);
    for (let row = 0; row < 10; row++) {
      model.depth += parameters.depth / 10;
      progress((row + 1) / 10);
    }
    return model;
  },
});
