import type { Lattice, PeriodicField } from 'tenter';
import type { Paper } from './paper.ts';
import type { Running } from './running.ts';

/** Everything `paint` needs. Plain data; knows nothing of pixels. */
export interface SaltModel {
  /** Of the box, mm. */
  readonly lattice: Lattice;
  /** How much paint lies where, mean 1; the tooth of the paper is not in it. */
  readonly load: PeriodicField;
  readonly paper: Paper;
  /** How much more of the paint is heavy pigment than stain; nothing where all is one ink. */
  readonly heavy: PeriodicField | undefined;
  /** How much more paint of each channel there is per unit of heavy pigment. */
  readonly hues: readonly [number, number, number];
  /** Nothing where colours are told to stay in place. */
  readonly running: Running | undefined;
  /** How strongly the paint settles in the hollows of the paper. */
  readonly settling: PeriodicField;
}
