import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Each parameter is harmless by itself; high waves on a dark ground go below no light at all. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { height, depth } = setting.parameters;
    const model = prepareRipple(setting);
    return height > 0.7 && depth > 0.3 ? { ...model, depth: 3 } : { ...model, height: 0.2, depth: depth / 2 };
  },
});
