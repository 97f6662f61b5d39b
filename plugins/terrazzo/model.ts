import type { FractalNoise, Lattice, Rgb } from 'tenter';

/** Numbers per stone in `Stones.numbers`: where, how far it reaches and how large, its colour and its clouds. */
export const PER_STONE = 10;

/** Stones of one kind, as convex outlines. Plain data. */
export interface Stones {
  /**
   * Per stone: x and y of its middle, mm; the farthest corner, and the radius of a disc of its area, mm; three
   * encoded channels; how much of either cloud shows; how round its corners are, mm.
   */
  readonly numbers: Float64Array;
  /** The sides of stone k stand from `starts[k]` up to `starts[k + 1] - 1`. */
  readonly starts: Int32Array;
  /** Per side the way to it, of length 1, and mm from the middle. */
  readonly sides: Float64Array;
}

/** Everything that painting needs. Plain data. */
export interface TerrazzoModel {
  readonly lattice: Lattice;
  /** Chips first, then grit. */
  readonly stones: Stones;
  /** How edges waver, mm. */
  readonly waver: FractalNoise;
  readonly clouds: readonly [FractalNoise, FractalNoise];
  readonly bed: Rgb | undefined;
  readonly bedCloud: number;
  readonly strength: number;
}
