import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Settles its ground for as long as a timer runs, and not by a count of steps. */
export default defineEffect({
  ...ripple,
  async prepare(setting) {
    let isLate = false;
    setTimeout(() => {
      isLate = true;
    }, 12);
    let depth = setting.parameters.depth;
    for (let left = 1; !isLate; left *= 0.9999) {
      depth *= 1 - 1e-4 * left;
      await new Promise<void>((done) => setImmediate(done));
    }
    return { ...prepareRipple(setting), depth };
  },
});
