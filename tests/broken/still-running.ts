import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Cleans up later, over and over. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const made: number[] = [];
    setInterval(() => made.splice(0), 60_000);
    return prepareRipple(setting);
  },
});
