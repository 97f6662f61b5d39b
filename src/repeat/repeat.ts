import { boxCount, type Lattice, latticeOf, unfoldedLayout } from './lattice.ts';
import type { Layout } from './layout.ts';

/** The lattice the artwork repeats on: a layout and the size of ONE tile in mm. */
export interface Repeat {
  readonly layout: Layout;
  /** mm */
  readonly width: number;
  /** mm */
  readonly height: number;
}

/** The smallest box that repeats by translation alone: what effects are drawn over. Sizes in mm. */
export interface Box {
  /** `straight`, `drop` or `brick`. */
  readonly layout: Layout;
  readonly width: number;
  readonly height: number;
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
