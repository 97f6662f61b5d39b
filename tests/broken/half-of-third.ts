import { defineEffect } from 'tenter';
import { overLattice, prepareRipple, ripple } from './ripple.ts';

/** Takes every drop for a half-drop. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { lattice } = setting.box;
    const half = { ...lattice, ay: lattice.ay === 0 ? 0 : lattice.by / 2 };
    return overLattice(prepareRipple(setting), half);
  },
});
