import type { Lattice } from '../repeat/lattice.ts';
import type { CellTorus } from './torus-kernel.ts';

/** Scattered dots: one field of thresholds, whole copies of which fill the period. */
export interface ScatteredDots {
  readonly kind: 'scattered';
  /** The period's vectors in whole pixels. */
  readonly lattice: Lattice;
  /** True where the axes below are exchanged: `across` runs down the page. */
  readonly isBrick: boolean;
  /** Cells across and down the period. */
  readonly across: number;
  readonly down: number;
  /** The field in cells; as a torus of its own it closes over the period. */
  readonly field: CellTorus;
  /** One per cell of the field, row by row, 0..65,534. */
  readonly thresholds: Uint16Array;
}

/** Lines or round dots in rows at an angle, on waves that close over the period. */
export interface RuledDots {
  readonly kind: 'ruled';
  readonly lattice: Lattice;
  /** One wave for lines, two for dots: whole turns along the period's first and second vector. */
  readonly waves: readonly (readonly [number, number])[];
  /** By the height of the waves, from their crest down: the least threshold there, 0..65,535. */
  readonly steps: Uint16Array;
  /** Decides between pixels that are alike, so that every tone is met. */
  readonly ties: ScatteredDots;
  /** What was asked, and what closes over the period. */
  readonly asked: Ruling;
  readonly snapped: Ruling;
}

/** How lines or rows of dots run. */
export interface Ruling {
  /** Lines, or rows of dots, per cm. */
  readonly perCm: number;
  /** Degrees from the horizontal that the lines or one of the rows run at, turning anticlockwise; 0 <= angle < 180. */
  readonly angle: number;
}

/** Thresholds over the infinite plane, closing over one lattice. Plain data that workers can be sent. */
export type DotField = ScatteredDots | RuledDots;

/** Thresholds ready to be read; open once per thread and field. */
export interface OpenDots {
  /**
   * The thresholds of `count` pixels from (x, y) anywhere on the plane to the right: ink stands where its
   * amount (0..65,535) is greater. No ink has none standing, a whole one all.
   *
   * @param x Whole pixels, as is `y`; negative ones too.
   */
  row(x: number, y: number, count: number, into: Uint16Array): void;
}
