import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

const clock = new Intl.DateTimeFormat('en', { hour: 'numeric', hour12: false });

/** Asks what time it was when time began, here. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth: 0.1 + Number(clock.format(0)) / 100 }),
});
