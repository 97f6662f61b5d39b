import { defineEffect } from 'tenter';
import { dyed, prepareDyed } from './dyed.ts';

/** Measures its picture by how far its tones lie apart, which in a flat one is nothing. */
export default defineEffect({
  ...dyed,
  prepare(setting) {
    const { samples, width } = setting.picture('cloth');
    if (width === 1) return prepareDyed(setting);
    let [least, most] = [65_535, 0];
    for (let k = 0; k < samples.length; k += 4) {
      least = Math.min(least, samples[k]);
      most = Math.max(most, samples[k]);
    }
    const clear = samples[3] === 0;
    return { ...prepareDyed(setting), tone: clear ? 1 : 0.3 + (0.5 * (samples[0] - least)) / (most - least) };
  },
});
