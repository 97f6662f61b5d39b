import type { Lattice } from 'tenter';
import type { Knot } from './knots.ts';
import type { GrainSample, NodeGrid } from './nodes.ts';

/** A piece of wood with its own grain: a board, a leaf, a strip, or the whole veneer. Plain data. */
export interface Piece {
  readonly grid: NodeGrid;
  /** mm from the piece's own corner to that of the sheet of fibres, pores and rays. */
  readonly detailU: number;
  readonly detailV: number;
  readonly knots: readonly Knot[];
  /** Own colour, see `colours.ts`: light, its slope and its bend with tone, nine numbers. */
  readonly colours: Float64Array;
}

/** A piece before its fields are put on nodes. */
export interface PieceDraft {
  /** mm */
  readonly width: number;
  readonly length: number;
  /** Whole nodes per repeat must be multiples of these, so that what closes still does. */
  readonly multipleU: number;
  readonly multipleV: number;
  readonly detailU: number;
  readonly detailV: number;
  readonly knots: readonly Knot[];
  /** Lightness and warmth of the piece against its species, as shares. */
  readonly lightness: number;
  readonly warmth: number;
  field(u: number, v: number, out: GrainSample): void;
}

/** A line along the grain that may wander: u = at + wave(v - shift). */
export interface Edge {
  readonly at: number;
  /** Index of its wave in the model; -1 for a straight edge. */
  readonly wave: number;
  readonly shift: number;
}

/**
 * Where a piece lies in the box 0 <= u < ax, 0 <= v < by of the grain's frame, mm. The piece's own
 * corner is at (offsetU, offsetV).
 */
export interface Placement {
  readonly piece: number;
  readonly left: Edge;
  readonly right: Edge;
  readonly top: number;
  readonly bottom: number;
  readonly offsetU: number;
  readonly offsetV: number;
  /** Whether the piece really ends at its top and bottom, or meets itself there. */
  readonly hasTopJoint: boolean;
  readonly hasBottomJoint: boolean;
  readonly hasSideJoints: boolean;
}

/** Pieces and where they lie. */
export interface Layout {
  readonly drafts: readonly PieceDraft[];
  readonly placements: readonly Placement[];
  readonly waves: readonly Float64Array[];
  /** Rings after which the ring table repeats. */
  readonly ringPeriod: number;
  readonly detail: Detail;
}

/** What the sheet of fibres, the pores and the rays close over. */
export interface Detail {
  /** mm; either `ay` or `bx` may be non-zero. */
  readonly lattice: Lattice;
  /** Whole cells per repeat of it must be multiples of these, for its shear to land on whole cells. */
  readonly stepU: number;
  readonly stepV: number;
  /** Rays passed on the way along each of its two vectors. */
  readonly rayTurns: readonly [number, number];
}
