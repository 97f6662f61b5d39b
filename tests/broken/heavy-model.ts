import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Keeps 70 kB for every square millimetre. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { width, height } = setting.box;
    const isLarge = width * height >= 100 * 100;
    return { ...prepareRipple(setting), table: new Float32Array(isLarge ? 17_500 * width * height : 0) };
  },
});
