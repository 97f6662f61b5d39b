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
  /** Nothing where colours are told to stay in place. */
  readonly running: Running | undefined;
  /** How strongly the paint settles in the hollows of the paper. */
  readonly settling: PeriodicField;
}
