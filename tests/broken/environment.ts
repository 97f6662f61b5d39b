import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

const mood = process.env.RIPPLE_MOOD ?? '';

/** Is darker where the environment says anything at all. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth: Math.min(0.4, 0.2 + mood.length / 100) }),
});
