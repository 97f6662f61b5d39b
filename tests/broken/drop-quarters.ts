import { defineEffect } from 'tenter';
import { overLattice, prepareRipple, ripple } from './ripple.ts';

/** Knows halves, thirds and fifths; of quarters it makes halves. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const { lattice, layout } = setting.box;
    const isQuarter = layout.kind === 'drop' && layout.denominator === 4;
    return overLattice(prepareRipple(setting), { ...lattice, ay: isQuarter ? lattice.by / 2 : lattice.ay });
  },
});
