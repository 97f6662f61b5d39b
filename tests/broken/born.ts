import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

const born = Date.now();

/** Remembers when it was loaded. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth: 0.2 + (born % 1009) / 5000 }),
});
