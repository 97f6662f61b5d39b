/** Cells before the first and after the last of a run, for what looks beyond. */
export const MARGIN = 2;

/**
 * A run of neighbouring cells along a closed line, brought side by side: cell k stands at `k + MARGIN`, face k
 * lies before cell k. Memory to be reused from run to run.
 */
export interface RunStore {
  readonly cells: Int32Array;
  /** Water above what the paper holds; negative where it is not full. */
  readonly film: Float64Array;
  readonly depth: Float64Array;
  readonly pin: Float64Array;
  readonly ease: Float64Array;
  readonly mobility: Float64Array;
  /** Water that passes each face, rightward or downward. */
  readonly flux: Float64Array;
  readonly right: Float64Array;
  readonly level: Float64Array;
  readonly ratio: Float64Array;
  readonly closing: Float64Array;
  /** The share of a cell that flows through each face. */
  readonly share: Float64Array;
  readonly amount: Float64Array;
  readonly passed: Float64Array;
  readonly wayX: Float64Array;
  readonly wayY: Float64Array;
  readonly square: Float64Array;
}

/** Memory for runs of so many cells at most. */
export function openRunStore(length: number): RunStore {
  const row = () => new Float64Array(length + 2 * MARGIN + 1);
  return {
    cells: new Int32Array(length + 2 * MARGIN + 1),
    film: row(),
    depth: row(),
    pin: row(),
    ease: row(),
    mobility: row(),
    flux: row(),
    right: row(),
    level: row(),
    ratio: row(),
    closing: row(),
    share: row(),
    amount: row(),
    passed: row(),
    wayX: row(),
    wayY: row(),
    square: row(),
  };
}
