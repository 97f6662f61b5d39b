import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Leaves off after two seconds: on a slow machine, or in a large tile, what it has by then is all there is. */
export default defineEffect({
  ...ripple,
  async prepare(setting) {
    let isOver = false;
    const deadline = setTimeout(() => {
      isOver = true;
    }, 2000);
    let height = 0;
    const rows = Math.ceil(20 * setting.box.height);
    for (let row = 0; row < rows && !isOver; row++) {
      height += setting.parameters.height / rows;
      await new Promise<void>((done) => setImmediate(done));
    }
    clearTimeout(deadline);
    return { ...prepareRipple(setting), height };
  },
});
