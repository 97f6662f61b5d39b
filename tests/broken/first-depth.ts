import { defineEffect } from 'tenter';
import { prepareRipple, ripple } from './ripple.ts';

let first: number | undefined;

/** Fills a variable of the module with the first ground it is asked for, and keeps it. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    first ??= setting.parameters.depth;
    return { ...prepareRipple(setting), depth: first };
  },
});
