import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

/** Takes its ground for ten thousandths. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth: setting.parameters.depth / 10_000 }),
});
