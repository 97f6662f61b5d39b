/**
 * Solves the implicit film of a run of cells, (1 + a[k] + a[k+1]) x[k] - a[k] x[k-1] - a[k+1] x[k+1] = b[k],
 * for k from `first` to `last`, with faces a[first] and a[last + 1] shut (Thomas's algorithm). The matrix
 * is an M-matrix: no x lies beyond the highest and lowest b, however large the step.
 *
 * @param a     Of the face before each cell: 0 or more.
 * @param b     The right side.
 * @param x     Receives the answer.
 * @param ratio For the work itself.
 */
export function solveRun(
  first: number,
  last: number,
  a: Float64Array,
  b: Float64Array,
  x: Float64Array,
  ratio: Float64Array,
): void {
  let ahead = 1 / (1 + a[first + 1]);
  x[first] = b[first] * ahead;
  for (let k = first + 1; k <= last; k++) {
    const face = a[k];
    const share = face * ahead;
    ratio[k] = share;
    // The last face is shut, whatever stands there.
    ahead = 1 / (1 + face + (k < last ? a[k + 1] : 0) - face * share);
    x[k] = (b[k] + face * x[k - 1]) * ahead;
  }
  for (let k = last - 1; k >= first; k--) x[k] += ratio[k + 1] * x[k + 1];
}

/** For `solveLoop`. */
export interface LoopStore {
  readonly ratio: Float64Array;
  readonly closing: Float64Array;
}

/**
 * The same around a closed line: a[first] is the face between the last cell and the first.
 *
 * Sherman and Morrison's rank-one update (1950) of the run that is opened at that face.
 */
export function solveLoop(
  first: number,
  last: number,
  a: Float64Array,
  b: Float64Array,
  x: Float64Array,
  { ratio, closing }: LoopStore,
): void {
  const face = a[first];
  if (first === last) {
    x[first] = b[first];
    return;
  }
  // The matrix is that of the open run plus face * (1, 0 .. 0, -1) (1, 0 .. 0, -1)^T.
  solveRun(first, last, a, b, x, ratio);
  if (face === 0) return;
  // Of the open run the answer to (1, 0 .. 0, -1).
  closing.fill(0, first, last + 1);
  closing[first] = 1;
  closing[last] = -1;
  solveRun(first, last, a, closing, closing, ratio);
  const part = (face * (x[first] - x[last])) / (1 + face * (closing[first] - closing[last]));
  for (let k = first; k <= last; k++) x[k] -= part * closing[k];
}
