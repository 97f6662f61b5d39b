import { defineEffect } from 'tenter';
import { overLattice, prepareRipple, ripple } from './ripple.ts';

/** Lets no drop and no brick go beyond the half. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { ax, ay, bx, by } = setting.box.lattice;
    return overLattice(prepareRipple(setting), {
      ax,
      ay: Math.min(ay, by / 2),
      bx: Math.min(bx, ax / 2),
      by,
    });
  },
});
