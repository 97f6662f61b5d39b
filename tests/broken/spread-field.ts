import { defineEffect } from 'tenter';
import { paintRipple, prepareRipple, ripple } from './ripple.ts';

/** Spreads a whole field into one call, which a large box has too many cells for. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    const { width, height } = setting.box;
    const field = Array.from({ length: Math.ceil(20 * width * height) }, (_, cell) => Math.sin(cell));
    return { ...model, depth: model.depth * (Math.max(...field) > 0 ? 1 : 0.5) };
  },
  paint: paintRipple,
});
