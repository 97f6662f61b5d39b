import { defineEffect } from 'tenter';
import { paintRipple, prepareRipple, type Ripple, ripple } from './ripple.ts';

let last: Ripple;

/** Hands paint what it needs through a variable of the module. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => (last = prepareRipple(setting)),
  paint: (model, band, layer) => paintRipple({ ...model, depth: last.depth, waves: last.waves }, band, layer),
});
