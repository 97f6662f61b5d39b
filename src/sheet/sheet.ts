import type { FieldShape } from '../field/periodic.ts';
import type { Paper } from './paper.ts';

/**
 * Paint on a sheet, afloat and settled, one number per cell, and where it came from: the sum of the ways
 * back to its first place, in cells across and down, and of their squares. What has not moved has ways of 0.
 */
export interface Paint {
  /** How much is there, in washes. */
  readonly amount: Float32Array;
  /** The amount times the way back, in cells to the right. */
  readonly wayX: Float32Array;
  /** The amount times the way back, in cells down. */
  readonly wayY: Float32Array;
  /** The amount times the square of the way back, in cells squared. */
  readonly square: Float32Array;
}

/** A wet sheet: all numbers per cell, changed in place by `stepSheet`. Plain data. */
export interface Sheet {
  readonly shape: FieldShape;
  readonly paper: Paper;
  /** Water in and on the paper, in films; a film stands where it is more than the paper's capacity. */
  readonly water: Float32Array;
  /** How fast water dries here against elsewhere, about 1. */
  readonly air: Float32Array;
  readonly afloat: Paint;
  readonly settled: Paint;
  /** A second paint, without ways, if any. */
  readonly second?: { readonly afloat: Float32Array; readonly settled: Float32Array };
}

/** A dry sheet without paint. */
export function drySheet(shape: FieldShape, paper: Paper, hasSecond = false): Sheet {
  const row = () => new Float32Array(shape.width * shape.height);
  const paint = (): Paint => ({ amount: row(), wayX: row(), wayY: row(), square: row() });
  return {
    shape,
    paper,
    water: row(),
    air: row().fill(1),
    afloat: paint(),
    settled: paint(),
    ...(hasSecond && { second: { afloat: row(), settled: row() } }),
  };
}
