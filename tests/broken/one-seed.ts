import { defineEffect, randomStream } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Asks for a random stream and draws from another one, the same for all seeds. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    setting.random('waves');
    return prepareRipple({ ...setting, random: (name) => randomStream('always', name) });
  },
});
