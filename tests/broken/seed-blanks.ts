import { defineEffect, randomStream } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Takes blanks, hyphens and low lines of a seed for one. */
export default defineEffect({
  ...ripple,
  prepare: (setting) =>
    prepareRipple({
      ...setting,
      random: (name) => randomStream(setting.seed.replaceAll(/[\s_-]+/g, '-'), name),
    }),
});
