import { defineEffect } from 'tenter';
import { ripple } from './ripple.ts';

/** Throws a text at its first band. */
export default defineEffect({
  ...ripple,
  paint() {
    throw 'no waves today';
  },
});
