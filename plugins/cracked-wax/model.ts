import type { FractalNoise, Lattice, PeriodicField } from 'tenter';
import type { Segments } from './segments.ts';

/** Everything that painting needs. Plain data. */
export interface WaxModel {
  readonly lattice: Lattice;
  readonly segments: Segments;
  /** Dye that crept into the cloth. */
  readonly bleed: PeriodicField;
  /** Where cracks fray at the cloth's threads: sideways and down, mm. */
  readonly fray: readonly [FractalNoise, FractalNoise];
  /** Threads across and down, along which dye creeps unevenly; standard deviation 1 together. */
  readonly threads: FractalNoise;
  readonly dye: readonly [number, number, number];
  readonly strength: number;
}
