import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Keeps a cell for every twentieth of a mm, but only where there are nine waves. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { box, parameters } = setting;
    const cells = parameters.waves === 9 ? 400 * box.width * box.height : 1;
    return { ...prepareRipple(setting), cells: new Float32Array(Math.ceil(cells)) };
  },
});
