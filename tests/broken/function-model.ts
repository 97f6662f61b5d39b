import { type Band, defineEffect } from 'tenter';
import { paintRipple, prepareRipple, ripple, shadeAt } from './ripple.ts';

/** Keeps a function in its model. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    return { ...model, at: (x: number, y: number, band: Band) => shadeAt(model, x, y, band) };
  },
  paint: paintRipple,
});
