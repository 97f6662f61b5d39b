import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Is lighter in the east. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const hours = new Date(0).getTimezoneOffset() / 60;
    return { ...prepareRipple(setting), depth: 0.2 + hours / 100 };
  },
});
