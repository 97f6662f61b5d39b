import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

let hasLeft = false;

/** Leaves work behind that fails a little later, when another check is long under way; once only. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    if (!hasLeft) setTimeout(() => Promise.reject(new RangeError('too late')), 30);
    hasLeft = true;
    return prepareRipple(setting);
  },
});
