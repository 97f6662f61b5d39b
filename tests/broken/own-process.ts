import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

const share = (process.pid % 97) / 97;

/** Looks at the number of the process that it runs in. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth: 0.4 * share }),
});
