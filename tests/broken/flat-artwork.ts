import { defineEffect } from 'tenter';
import { dimmed, prepareDimmed } from './dimmed.ts';

/** Stretches the light of the artwork over all there is, which in flat artwork is nothing. */
export default defineEffect({
  ...dimmed,
  prepare(setting) {
    const { lattice, red } = prepareDimmed(setting);
    let [least, most] = [1, 0];
    for (const light of red.values) {
      least = Math.min(least, light);
      most = Math.max(most, light);
    }
    return {
      lattice,
      red: { ...red, values: red.values.map((light) => (light - least) / (most - least)) },
    };
  },
});
