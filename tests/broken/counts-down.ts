import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Tells what is left to do, and not what is done. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { progress } = setting;
    return prepareRipple({ ...setting, progress: (done) => progress(1 - done) });
  },
});
