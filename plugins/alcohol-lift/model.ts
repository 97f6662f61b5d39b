import type { Box, PeriodicField } from 'tenter';
import type { Moved } from './moved.ts';
import type { Paper } from './paper.ts';
import type { Patches } from './patch.ts';
import type { DepthTables } from './tables.ts';

/** A lifted wash, ready to be painted. Plain data. */
export interface LiftModel {
  readonly box: Box;
  readonly paper: Paper;
  readonly patches: Patches;
  readonly tables: DepthTables;
  readonly rims: DropRims;
  readonly copies: Copies;
  /** Where paint came from and how far it ran; nothing where colours stay in place. */
  readonly moved: Pick<Moved, 'x' | 'y' | 'bleed'> | undefined;
  readonly ink: Ink | undefined;
  readonly parted: Parted | undefined;
  /** What brings the mean load to 1: edges are frayed and the wash is uneven after the paint was moved. */
  readonly level: number;
}

/** How the hues of the paint part. */
export interface Parted {
  /** How much more of the wash was heavy pigment than stain, -1..1. */
  readonly heavy: PeriodicField;
  /** How much more paint of each channel there is per unit of heavy pigment. */
  readonly hues: readonly [number, number, number];
  /** What brings the heavy pigment to as much as there was. */
  readonly level: number;
}

/** What painting needs of each drop. */
export interface DropRims {
  readonly kind: Uint8Array;
  readonly stain: Float32Array;
  /** mm */
  readonly radius: Float32Array;
  /** How far its edge frays, in radii. */
  readonly fray: Float32Array;
  readonly ink: Float32Array;
  /** How unevenly its stain granulates. */
  readonly grain: Float32Array;
}

/** Copies of patches that touch the box, by strips of its height. */
export interface Copies {
  readonly strips: number;
  readonly starts: Int32Array;
  readonly drop: Int32Array;
  /** mm from the patch to its copy. */
  readonly awayX: Float64Array;
  readonly awayY: Float64Array;
}

export interface Ink {
  /** Encoded sRGB of the ink at full strength. */
  readonly colour: readonly [number, number, number];
  /** 0..1 */
  readonly amount: number;
}
