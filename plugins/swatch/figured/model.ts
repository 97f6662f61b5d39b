import type { Lattice } from 'tenter';
import type { Level } from '../way.ts';

/** A map of where each place of the torus comes from. */
export interface Model {
  readonly levels: readonly Level[];
  /** Of the box, mm. */
  readonly lattice: Lattice;
  /** Cells of the map across and down the box, and the sides of one in mm. */
  readonly width: number;
  readonly height: number;
  readonly mmPerCellX: number;
  readonly mmPerCellY: number;
  /** The piece of each cell, in a frame of copies one cell wide: (width + 2) * (height + 2). */
  readonly piece: Int32Array;
  /** Six numbers per piece: place (x, y) of the box shows (a*x + b*y + c, d*x + e*y + f) of the swatch, all mm. */
  readonly places: Float64Array;
  /** Per plane and cell, in the same frame: how much brighter than in the swatch, so that joins have no step. */
  readonly gains: readonly Float32Array[];
  /** mm between the two nearest places that show the same; infinite where none do. */
  readonly comesBack: number;
}
