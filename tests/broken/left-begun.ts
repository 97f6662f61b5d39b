import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Settings that are being prepared. */
let begun = 0;

/** Counts what it has begun, and never what was given up on the way. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    begun++;
    const model = prepareRipple(setting);
    const depth = begun > 1 ? model.depth / 2 : model.depth;
    begun--;
    return { ...model, depth };
  },
});
