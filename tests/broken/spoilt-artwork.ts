import { defineEffect } from 'tenter';
import { dimmed, prepareDimmed } from './dimmed.ts';

/** Evens out the artwork where it lies, which other steps and threads read. */
export default defineEffect({
  ...dimmed,
  prepare(setting) {
    const { red } = setting.artwork;
    for (let cell = 0; cell < red.length; cell++) red[cell] = 0.2 + 0.5 * red[cell];
    return prepareDimmed(setting);
  },
});
