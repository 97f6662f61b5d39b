import type { Box } from 'tenter';
import type { Level } from '../way.ts';
import type { ComesBack } from './comes-back.ts';

/** A map of where each place of the torus comes from. */
export interface Model {
  readonly levels: readonly Level[];
  /** What it closes over, mm. */
  readonly box: Box;
  /** Cells of the map across and down the box, and the sides of one in mm. */
  readonly width: number;
  readonly height: number;
  readonly mmPerCellX: number;
  readonly mmPerCellY: number;
  /** The piece of each cell, in a frame of copies one cell wide: (width + 2) * (height + 2). */
  readonly piece: Int32Array;
  /** Whether the swatch closes by itself and is shown as it is: what lies beyond its edge is its other edge. */
  readonly closed: boolean;
  /** Six numbers per piece: place (x, y) of the box shows (a*x + b*y + c, d*x + e*y + f) of the swatch, all mm. */
  readonly places: Float64Array;
  /** Per cell, in the same frame: how far beside its place it looks, mm of the box, so that lines run on. */
  readonly movedX: Float32Array;
  readonly movedY: Float32Array;
  /** Per plane and cell, in the same frame: how much brighter than the swatch, so that joins have no step. */
  readonly gains: readonly Float32Array[];
  readonly comesBack: ComesBack;
}
