import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Swallows whatever stops it. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const progress = (done: number) => {
      try {
        setting.progress(done);
      } catch {
        // Carry on.
      }
    };
    return prepareRipple({ ...setting, progress });
  },
});
