import type { FieldShape, Lattice } from 'tenter';
import type { Axes } from './axes.ts';
import type { Curve } from './curve.ts';

/** Numbers per piece in `Pieces.numbers`. */
export const PER_PIECE = 3;

/**
 * Pieces of the swatch over the plane, one around each corner of a net of triangles: corner (i, j) stands at
 * ((i + half) * mmPerCellX, j * mmPerCellY), where half is 1/2 in odd rows. A piece reaches to the six corners
 * around its own.
 */
export interface Pieces {
  readonly net: FieldShape;
  /** Per corner: the place of the swatch that lies on it, x and y in mm, and which way up it lies, see `ways`. */
  readonly numbers: Float64Array;
}

/** A level of the swatch whose numbers stand on a bell curve, along the axes of its colours. */
export interface BellLevel {
  readonly width: number;
  readonly height: number;
  readonly mmPerSample: number;
  /** The planes as they lie, and where pieces are turned also on their side: columns for rows. */
  readonly planes: readonly Float32Array[];
  readonly turned: readonly Float32Array[];
  /** Per plane, the way back: for the second and the third to deviations from their curves. */
  readonly tables: readonly Float32Array[];
  /** How the second and the third plane hang on the first; none where there is one plane. */
  readonly curves: readonly Curve[];
}

/** A swatch grown by adding pieces of it. Plain data. */
export interface EvenModel {
  readonly lattice: Lattice;
  readonly pieces: Pieces;
  readonly axes: Axes;
  /** The finest first. */
  readonly levels: readonly BellLevel[];
  /** mm between the nearest two places with the same piece. */
  readonly comesBack: number;
}
