import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Adds up a seed as a number of its letters, which is infinite where there are many. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const start = [...setting.seed].reduce((sum, letter) => 128 * sum + letter.charCodeAt(0), 0);
    return { ...prepareRipple(setting), depth: 0.2 + 0.01 * Math.sin(start) };
  },
});
