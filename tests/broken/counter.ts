import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

let renders = 0;

/** Counts how often it was asked. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth: 0.01 * (renders++ % 50) }),
});
