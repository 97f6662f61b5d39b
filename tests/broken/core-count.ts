import { cpus } from 'node:os';
import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

const cores = cpus().length;

/** Draws coarser where there is less to work with. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth: 0.4 / cores }),
});
