import type { FractalNoise, Lattice } from 'tenter';

/** Everything that painting needs. Plain data. */
export interface BrushModel {
  readonly lattice: Lattice;
  readonly strokes: readonly Stroke[];
  /** The same strokes in ever wider columns. */
  readonly levels: readonly TrackTables[];
  /** The grain of the paper, standard deviation 1. */
  readonly tooth: FractalNoise;
  /** Standard deviation of the grain beside that of the hairs. */
  readonly roughness: number;
  readonly underpaint: number;
  /** Streaks of the thin coat under the strokes, deviation 1. */
  readonly coat: FractalNoise;
  readonly variation: number;
  /** What all loads on strokes are multiplied by. */
  readonly gain: number;
}

/**
 * One drag of the brush. Its own frame has u along the line from touch-down to lift and v across it, both
 * mm, (0, 0) at the middle; the hairs run along v = c0 + c1 u + c2 u^2 + c3 u^3.
 */
export interface Stroke {
  /** mm, the middle. */
  readonly x: number;
  readonly y: number;
  /** Of u on the page. */
  readonly cos: number;
  readonly sin: number;
  readonly length: number;
  readonly width: number;
  readonly curve: readonly [number, number, number, number];
  /** The farthest that the line of hairs lies from v = 0, mm. */
  readonly sag: number;
  /** How full the brush is, in standard deviations about the mean. */
  readonly fill: number;
  /** How thick its paint lies beside that of other strokes. */
  readonly body: number;
}

/**
 * How wet the hairs of every stroke are: for each stroke a table of `rows` along it by `columns` across,
 * in steps of 1 / `WET_SCALE` standard deviations of the paper's tooth; 0 is where half of it takes paint.
 */
export interface TrackTables {
  readonly wet: Int8Array;
  /** Where each stroke's table starts. */
  readonly starts: Int32Array;
  readonly rows: Int32Array;
  readonly columns: Int32Array;
  /** mm from row to row and from column to column. */
  readonly along: number;
  readonly across: number;
  /** Variance of the wetness that columns this wide no longer show. */
  readonly lost: number;
}
