import type { FieldShape, FractalNoise, Lattice, PeriodicField } from 'tenter';
import type { RibTable } from './light.ts';

export type Rgb = readonly [number, number, number];

/** A raw silk, ready to be painted at any density. */
export interface SilkModel {
  readonly lattice: Lattice;
  /** One row of cells for each pick, a column for each knot. */
  readonly shape: FieldShape;
  /** mm by which the upper edge of a pick is moved from its even place. */
  readonly moved: Float32Array;
  /** The farthest that any pick is moved, in picks. */
  readonly reach: number;
  /** Light that a pick returns, about 1. */
  readonly tone: Float32Array;
  /** How much stronger than the even yarn's its gleam is, about 1. */
  readonly gloss: Float32Array;
  readonly ribs: RibTable;
  /** Ends per mm. */
  readonly endsPerMm: number;
  /** How far the ends stray, in ends. */
  readonly straying: PeriodicField;
  /** How the cloth lies, deviation 1. */
  readonly lie: PeriodicField;
  readonly filaments: FractalNoise;
  readonly endTones: FractalNoise;
  readonly look: SilkLook;
}

/** How strong each part of the light is. */
export interface SilkLook {
  readonly mean: number;
  readonly grain: number;
  readonly sheen: number;
  readonly warp: Rgb;
  readonly weft: Rgb;
  readonly shot: number;
}
