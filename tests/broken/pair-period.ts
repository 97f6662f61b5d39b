import { defineEffect } from 'tenter';
import { overLattice, prepareRipple, ripple, straightLattice } from './ripple.ts';

/** Forgets the drop where two of its parameters stand at the ends of their ranges. */
export default defineEffect({
  ...ripple,
  prepare(setting) {
    const model = prepareRipple(setting);
    const { waves, depth } = setting.parameters;
    return waves === 9 && depth === 0.4 ? overLattice(model, straightLattice(setting.box)) : model;
  },
});
