import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

const { random: dice } = Math;

/** Throws dice that it took at load, where nobody could watch. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth: 0.4 * dice() }),
});
