import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Keeps 16 MB for every square decimetre: 655 MB for a tile of 640 mm. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { width, height } = setting.box;
    return { ...prepareRipple(setting), table: new Float32Array(420 * width * height) };
  },
});
