import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

const spring = new Date(2001, 2, 21).getTime() / 3_600_000;

/** Counts the hours to a day of spring, which begins elsewhere at another moment. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth: 0.2 + (spring % 24) / 200 }),
});
