import type { FractalNoise, Lattice, PeriodicField } from 'tenter';

/** Everything that painting needs. Plain data. */
export interface LabyrinthModel {
  readonly lattice: Lattice;
  /** How much of the substance that makes the figure there is, on coarse cells: smooth. */
  readonly level: PeriodicField;
  /** The level at which the figure is cut. */
  readonly cut: number;
  /** Per mm: where the level is flatter it has no edge, and is wholly in the figure or out of it. */
  readonly leastSlope: number;
  /** How far edges stray, mm. */
  readonly fray: FractalNoise;
  /** The load in the figure, and on the ground. */
  readonly inside: number;
  readonly outside: number;
  /** mm over which edges fade, and along which paint gathered; how much. */
  readonly softness: number;
  readonly rim: number;
  readonly rimWidth: number;
  /** Light per slope of the level, across a mm. */
  readonly relief: number;
}
