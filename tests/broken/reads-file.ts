import { readdirSync } from 'node:fs';
import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

const { length } = readdirSync('.');

/** Counts the files that lie where it was started. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth: 0.1 + (length % 10) / 40 }),
});
