import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

const depth = Number((0.25).toLocaleString().replace(',', '')) % 1;

/** Writes a number as people do here, and reads it again as everywhere. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth }),
});
