import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

const depths = new Map<string, number>();

/** Finds its ground again by box, seed and parameters, and so takes a sketch's for a finished one. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { parameters, box, seed, quality } = setting;
    const key = JSON.stringify([parameters, box, seed]);
    const depth = depths.get(key) ?? parameters.depth * (quality === 'sketch' ? 0.9 : 1);
    depths.set(key, depth);
    return { ...prepareRipple(setting), depth };
  },
});
