import { defineEffect, randomStream } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Takes a seed apart into letters and keeps 16 bits of each: those beyond the basic plane are then others. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const kept = [...setting.seed].map((letter) => letter.codePointAt(0)! & 0xffff).join();
    return prepareRipple({ ...setting, random: (name) => randomStream(kept, name) });
  },
});
