import type { FractalNoise, Lattice, PeriodicField } from 'tenter';
import type { Flakes } from './flakes.ts';
import type { Scratch } from './scratches.ts';
import type { Threads } from './threads.ts';

/** Everything that painting needs. Plain data. */
export interface WornModel {
  readonly lattice: Lattice;
  /** How far each place was worn, in deviations of the surface: the highest of it is bare from about 0 on. */
  readonly wear: PeriodicField;
  /** The load that washing and light have left. */
  readonly left: PeriodicField;
  /** The weave; undefined on paper. */
  readonly threads: Threads | undefined;
  /** What stands up besides: fluff, tooth, and what the paint was laid on; deviation 1. */
  readonly tooth: FractalNoise;
  /** Fine streaks the way it was rubbed, deviation 1. */
  readonly streaks: FractalNoise;
  /** Shares of the surface's height: they square to a sum of 1. */
  readonly parts: { readonly threads: number; readonly tooth: number; readonly streaks: number };
  /** How softly paint ends, in deviations of the surface. */
  readonly soft: number;
  readonly flakes: Flakes | undefined;
  readonly scratches: readonly Scratch[];
  /** How much washing took more from what stands high, load per deviation. */
  readonly wash: number;
  /** 0..1, how much of the paint is gone where it is worn through. */
  readonly bare: number;
}
