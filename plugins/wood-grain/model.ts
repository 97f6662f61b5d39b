import type { CellLattice, Lattice } from 'tenter';
import type { Nodes } from './nodes.ts';
import type { WoodValues } from './parameters.ts';
import type { Piece, Placement } from './piece.ts';
import type { RayLayer } from './rays.ts';
import type { RingTable } from './rings.ts';
import type { Sheet } from './sheet.ts';
import type { PoreHabit, Rgb } from './species.ts';

/** Everything paint needs. Plain data; knows nothing of pixels. */
export interface WoodModel {
  readonly isAcross: boolean;
  /** Of the box, grain frame, mm. */
  readonly lattice: Lattice;
  readonly pieces: readonly Piece[];
  readonly placements: readonly Placement[];
  readonly waves: readonly Float64Array[];
  readonly nodes: Nodes;
  readonly rings: RingTable;
  readonly sheet: Sheet;
  /** mm by which fibres are pushed aside at most. */
  readonly fibreReach: number;
  readonly pores: readonly PoreLayer[];
  readonly rays: RayLayer | null;
  readonly look: Look;
}

/** How strongly each part shows, and the colours all pieces share. */
export interface Look {
  readonly body: WoodValues['body'];
  readonly pore: Rgb;
  readonly dark: Rgb;
  /** mm */
  readonly jitter: number;
  readonly fibre: number;
  readonly fibreTone: number;
  readonly poreStrength: number;
  readonly rayStrength: number;
  /** mm, half the width of a joint. */
  readonly halfJoint: number;
  readonly relief: number;
  /** The tone that contrast does not change. */
  readonly meanTone: number;
  readonly contrast: number;
}

/** Places where pores of one habit may stand, closing over the detail lattice. Plain data. */
export interface PoreLayer {
  readonly cells: CellLattice;
  readonly cellU: number;
  readonly cellV: number;
  readonly seed: number;
  readonly habit: PoreHabit;
}
