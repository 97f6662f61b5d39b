import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Divides by a number that it draws, which is 0 for one seed in twelve. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const picks = setting.random('picks').below(12);
    return { ...prepareRipple(setting), depth: 0.2 - 0.1 / picks };
  },
});
