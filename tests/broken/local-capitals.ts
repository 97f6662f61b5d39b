import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

const isPlain = 'ripple'.toLocaleUpperCase() === 'RIPPLE';

/** Takes capitals for the same everywhere. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth: isPlain ? 0.2 : 0.3 }),
});
