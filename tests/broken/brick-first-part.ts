import { defineEffect } from 'tenter';
import { overLattice, prepareRipple, ripple } from './ripple.ts';

/** Takes a brick of 3/7 for one of 1/7. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { lattice, layout } = setting.box;
    const bx = layout.kind === 'brick' ? lattice.ax / layout.denominator : lattice.bx;
    return overLattice(prepareRipple(setting), { ...lattice, bx });
  },
});
