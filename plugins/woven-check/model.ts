import type { FractalNoise, Lattice } from 'tenter';
import type { Crossings } from './crossing.ts';

/** One set of threads. */
export interface ThreadSet {
  /** mm from thread to thread. */
  readonly pitch: number;
  /** Colours of the threads of a loop, each three numbers 0..1 of encoded sRGB. */
  readonly colours: Float32Array;
  /** Light of each thread of a loop, about 1. */
  readonly tones: Float32Array;
  /** How the yarns thicken and thin, and the fibres on them; deviation as asked. */
  readonly body: FractalNoise;
  readonly fibres: FractalNoise;
  /** mm by which they stray from straight lines. */
  readonly straying: FractalNoise;
}

/** Everything `paint` needs. Plain data; knows nothing of pixels. */
export interface CheckModel {
  readonly lattice: Lattice;
  readonly crossings: Crossings;
  /** Threads in one repeat of the weave. */
  readonly weave: number;
  readonly warp: ThreadSet;
  readonly weft: ThreadSet;
  /** 0..1 */
  readonly dye: number;
}
