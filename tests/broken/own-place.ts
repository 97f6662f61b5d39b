import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

const sum = [...import.meta.url].reduce((total, letter) => (31 * total + letter.charCodeAt(0)) % 1009, 7);

/** Takes a seed of its own from where it lies. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth: (0.4 * sum) / 1009 }),
});
