import { defineEffect } from 'tenter';
import { overLattice, prepareRipple, ripple } from './ripple.ts';

/** Rounds the drop and the brick to sixtieths, where there are no sevenths and no eighths. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { ax, ay, bx, by } = setting.box.lattice;
    const rounded = (part: number, whole: number) => (Math.round((60 * part) / whole) / 60) * whole;
    return overLattice(prepareRipple(setting), { ax, ay: rounded(ay, by), bx: rounded(bx, ax), by });
  },
});
