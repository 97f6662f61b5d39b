import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Walks on in steps of the depth until it has gone a whole turn; with no depth it never arrives. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    let turn = 0;
    while (turn < 1) turn += setting.parameters.depth;
    return prepareRipple(setting);
  },
});
