import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

const salt = Math.random();

/** Throws its dice once, while it is loaded: every worker has others. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth: 0.4 * salt }),
});
