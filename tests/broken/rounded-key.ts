import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Depths by what they were asked for. */
const depths = new Map<string, number>();

/** Finds what was worked out before again by a value rounded to one decimal. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const key = setting.parameters.depth.toFixed(1);
    const depth = depths.get(key) ?? setting.parameters.depth;
    depths.set(key, depth);
    return { ...prepareRipple(setting), depth };
  },
});
