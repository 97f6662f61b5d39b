import type { FractalNoise, Lattice, PeriodicField } from 'tenter';
import type { PressedRibs } from './press.ts';
import type { Slope } from './register.ts';

/** A watered silk, ready to be painted at any density. */
export interface WateredModel {
  readonly lattice: Lattice;
  /** mm from rib to rib. */
  readonly pitch: number;
  /** The lag between the two layers, in ribs: a slope, and what varies about it. */
  readonly slope: Slope;
  readonly figure: PeriodicField;
  readonly quiver: FractalNoise;
  /** What each rib strays by itself, in ribs. */
  readonly feather: FractalNoise;
  /** How hard each place was pressed, about 1. */
  readonly press: PeriodicField;
  /** How far the ribs stray from straight lines, in ribs. */
  readonly straying: PeriodicField;
  readonly filaments: FractalNoise;
  readonly ribs: PressedRibs;
  /** The mean light it returns. */
  readonly mean: number;
}
