import { hostname } from 'node:os';
import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

const name = hostname();

/** Is darker on machines with long names. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => ({ ...prepareRipple(setting), depth: 0.1 + (name.length % 30) / 100 }),
});
