import type { FractalNoise, Lattice, PeriodicField } from 'tenter';
import type { Fibres } from './fibres.ts';
import type { Wires } from './laid.ts';

/** A sheet of paper, ready to be painted at any density. */
export interface PaperModel {
  readonly lattice: Lattice;
  /** Height of the tooth in its own deviation; `amplitude` mm make one. */
  readonly sheet: PeriodicField;
  readonly amplitude: number;
  /** A noise with the sheet's cells: what pixels of a size leave of it they leave of the sheet. */
  readonly scale: FractalNoise;
  /** How the pulp lies, mean 0. */
  readonly clouds: PeriodicField;
  /** mm. */
  readonly grain: FractalNoise;
  readonly speckle: FractalNoise;
  readonly wires: Wires;
  /** mm: height of a laid line from its middle. */
  readonly laidHeight: number;
  readonly fibres: Fibres;
  readonly granulation: number;
}
