import { defineEffect } from 'tenter';
import { overLattice, prepareRipple, ripple } from './ripple.ts';

/** Lets the next repeat across stand higher instead of lower: of a half-drop that is the same. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { lattice } = setting.box;
    return overLattice(prepareRipple(setting), { ...lattice, ay: -lattice.ay });
  },
});
