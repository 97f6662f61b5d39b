import { type Allot, allotOwn } from './allot.ts';
import { BEND } from './look.ts';

/** What one row of samples shows. */
export interface SampleRow {
  readonly shade: Float32Array;
  /** The share of each sample that is warp, and weft. */
  readonly warp: Float32Array;
  readonly weft: Float32Array;
  /** Of a printed cloth: the light that its ink returns (see `ink.ts`). */
  readonly ink: Float32Array;
  /** And mm across and down to where that ink comes from, times the share that is yarn. */
  readonly fromX: Float32Array;
  readonly fromY: Float32Array;
}

/** @param allot Where it lies. */
export function openRow(samples: number, allot: Allot = allotOwn): SampleRow {
  return {
    shade: allot(Float32Array, samples),
    warp: allot(Float32Array, samples),
    weft: allot(Float32Array, samples),
    ink: allot(Float32Array, samples),
    fromX: allot(Float32Array, samples),
    fromY: allot(Float32Array, samples),
  };
}

/** Shade of the light that a sample returns. */
export function bent(lit: number): number {
  return lit > 1 ? 1 + BEND * (lit - 1) : lit;
}

/** Light of a sample of this shade: what `bent` undoes. */
export function unbent(shade: number): number {
  return shade > 1 ? 1 + (shade - 1) / BEND : shade;
}
