import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Throws dice of its own besides those of the seed. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth: 0.4 * Math.random() }),
});
