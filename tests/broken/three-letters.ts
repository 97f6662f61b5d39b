import { defineEffect, randomStream } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Looks at the first three letters of a seed alone. */
export default defineEffect({
  ...ripple,
  prepare: (setting) =>
    prepareRipple({ ...setting, random: (name) => randomStream(setting.seed.slice(0, 3), name) }),
});
