import { defineEffect } from 'tenter';
import { ripple } from './ripple.ts';

/** Its sentence writes a unit that the value brings with it. */
export default defineEffect({
  ...ripple,
  sentences: ['{waves} waves, {height} high, over a ground that is darkened by {depth} %.'],
});
