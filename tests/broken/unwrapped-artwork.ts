import { defineEffect, type Lattice } from 'tenter';
import { dimmed, prepareDimmed } from './dimmed.ts';

/** Reads the artwork's cells across and down by themselves: over a drop or brick they are others beyond the edge. */
export default defineEffect({
  ...dimmed,
  prepare(setting) {
    const { lattice, red } = prepareDimmed(setting);
    return { lattice: straight(lattice), red: { ...red, lattice: straight(red.lattice) } };
  },
});

function straight({ ax, by }: Lattice): Lattice {
  return { ax, ay: 0, bx: 0, by };
}
