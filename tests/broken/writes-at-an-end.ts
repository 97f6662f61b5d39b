import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Rounds a parameter where it stands, but only with nine waves. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { parameters } = setting;
    if (parameters.waves === 9)
      (parameters as { depth: number }).depth = Math.round(10 * parameters.depth) / 10;
    return prepareRipple(setting);
  },
});
