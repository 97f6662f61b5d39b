import { defineEffect } from 'tenter';
import { overLattice, prepareRipple, ripple, straightLattice } from './ripple.ts';

/** Forgets the drop: every layout is taken for a straight one. */
export default defineEffect({
  ...ripple,
  prepare: (setting) => overLattice(prepareRipple(setting), straightLattice(setting.box)),
});
