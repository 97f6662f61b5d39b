import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Its sketch is of another cloth. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { quality, random } = setting;
    return prepareRipple({ ...setting, random: (name) => random(`${quality} ${name}`) });
  },
});
