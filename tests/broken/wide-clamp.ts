import { defineEffect } from 'tenter';
import { overLattice, prepareRipple, ripple } from './ripple.ts';

/** Takes no box for wider than 200 mm. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { ax, ay, bx, by } = setting.box.lattice;
    const lattice = { ax: Math.min(ax, 200), ay, bx, by };
    return overLattice(prepareRipple(setting), lattice);
  },
});
