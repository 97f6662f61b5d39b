import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** A count of things that is none on a tiny tile, and divided by. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const places = Math.floor((setting.box.width * setting.box.height) / 20);
    return { ...prepareRipple(setting), depth: 0.2 + 0.1 * (1 / places) };
  },
});
