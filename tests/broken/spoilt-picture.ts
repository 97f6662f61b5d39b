import { defineEffect } from 'tenter';
import { dyed, prepareDyed } from './dyed.ts';

/** Evens out its picture where it lies, which other steps and threads read. */
export default defineEffect({
  ...dyed,
  prepare(setting) {
    const { samples } = setting.picture('cloth');
    for (let k = 0; k < samples.length; k++) samples[k] = 16_000 + 0.5 * samples[k];
    return prepareDyed(setting);
  },
});
