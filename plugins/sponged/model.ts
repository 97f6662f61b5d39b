import type { FractalNoise, Lattice, Rgb } from 'tenter';
import type { Dab } from './dabs.ts';
import type { Face } from './face.ts';
import type { SpongeValues } from './parameters.ts';

/** Everything that painting needs. Plain data. */
export interface SpongeModel {
  readonly lattice: Lattice;
  readonly dabs: readonly Dab[];
  /** The sponge at its finest, then ever coarser, and its lobes. */
  readonly faces: readonly Face[];
  readonly lobes: Face;
  /** mm along the whole face, and along all lobes. */
  readonly faceSide: number;
  readonly lobesSide: number;
  /** The grain of the paper, standard deviation 1. */
  readonly tooth: FractalNoise;
  readonly action: SpongeValues['action'];
  readonly colours: readonly [Rgb, Rgb];
  readonly strength: number;
  readonly edges: number;
  /** What loads are multiplied by where the artwork is printed. */
  readonly gain: number;
}
