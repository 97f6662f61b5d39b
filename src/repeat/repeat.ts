import { boxCount, type Lattice, latticeOf, unfoldedLayout } from './lattice.ts';
import type { Layout } from './layout.ts';

/** The lattice the artwork repeats on: a layout and the size of ONE tile in mm. */
export interface Repeat {
  /** How the tiles stand. */
  readonly layout: Layout;
  /** Of one tile, mm. */
  readonly width: number;
  /** Of one tile, mm. */
  readonly height: number;
}

/** The smallest box that repeats by translation alone: what effects are drawn over. Sizes in mm. */
export interface Box {
  /** `straight`, `drop` or `brick`. */
  readonly layout: Layout;
  /** mm: equal to `lattice.ax`. */
  readonly width: number;
  /** mm: equal to `lattice.by`. */
  readonly height: number;
  /** The two vectors in mm. */
  readonly lattice: Lattice;
}

/** Unfolds a repeat: a quartered (mirror-xy) tile becomes a straight box of two by two tiles. */
export function boxOf(repeat: Repeat): Box {
  const { across, down } = boxCount(repeat.layout);
  const layout = unfoldedLayout(repeat.layout);
  const width = repeat.width * across;
  const height = repeat.height * down;
  return { layout, width, height, lattice: latticeOf(layout, width, height) };
}
