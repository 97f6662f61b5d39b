import { defineEffect, randomStream } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Takes "Rose" and "rose" for one seed. */
export default defineEffect({
  ...ripple,
  prepare: (setting) =>
    prepareRipple({ ...setting, random: (name) => randomStream(setting.seed.toLowerCase(), name) }),
});
