import type { FieldLines } from './lines.ts';

/** Memory for `solveCyclic` and `diffuseLines`, to be reused from line to line. */
export interface LineStore {
  /** Given: what each unknown before is multiplied by, one per cell. */
  readonly lower: Float64Array;
  /** Given: what each unknown itself is multiplied by, one per cell. */
  readonly diagonal: Float64Array;
  /** Given: what each unknown after is multiplied by, one per cell. */
  readonly upper: Float64Array;
  /** Given: the right side, one per cell. */
  readonly right: Float64Array;
  /** Received: the answer, one per cell. */
  readonly solution: Float64Array;
  /** For the work itself, one per cell. */
  readonly ratio: Float64Array;
  /** For the work itself, one per cell. */
  readonly known: Float64Array;
  /** For the work itself, one per cell. */
  readonly closing: Float64Array;
}

/** Memory for lines of so many cells at most. */
export function openLineStore(length: number): LineStore {
  const line = () => new Float64Array(length);
  return {
    lower: line(),
    diagonal: line(),
    upper: line(),
    right: line(),
    solution: line(),
    ratio: line(),
    known: line(),
    closing: line(),
  };
}

/**
 * Solves lower[k]*u[k-1] + diagonal[k]*u[k] + upper[k]*u[k+1] = right[k] around a loop of `length` cells.
 *
 * Without the last unknown the rest is tridiagonal: it is solved once for the right side and once for
 * what the last cell adds, and the last equation then fixes that cell (block elimination; the same work
 * as the rank-one update of Sherman and Morrison, 1950). Where the matrix is an M-matrix (neighbours
 * negative, rows dominant), as in every diffusion, no two numbers of unlike sign are ever added but on
 * the right side: no cancellation, however large the step.
 *
 * @param store The four coefficients in their arrays; receives the answer in `solution`.
 */
export function solveCyclic(store: LineStore, length: number): void {
  const { lower, diagonal, upper, right, solution, ratio, known, closing } = store;
  const last = length - 1;
  if (last === 0) {
    solution[0] = right[0] / (lower[0] + diagonal[0] + upper[0]);
    return;
  }
  // u[k] = known[k] - ratio[k]*u[k+1] - closing[k]*u[last]
  let ahead = 1 / diagonal[0];
  ratio[0] = upper[0] * ahead;
  known[0] = right[0] * ahead;
  closing[0] = lower[0] * ahead;
  for (let k = 1; k < last; k++) {
    const below = lower[k];
    ahead = 1 / (diagonal[k] - below * ratio[k - 1]);
    ratio[k] = upper[k] * ahead;
    known[k] = (right[k] - below * known[k - 1]) * ahead;
    closing[k] = -below * closing[k - 1] * ahead;
  }
  closing[last - 1] += ratio[last - 1];
  for (let k = last - 2; k >= 0; k--) {
    known[k] -= ratio[k] * known[k + 1];
    closing[k] -= ratio[k] * closing[k + 1];
  }
  const onto = lower[last];
  const off = upper[last];
  const end =
    (right[last] - onto * known[last - 1] - off * known[0]) /
    (diagonal[last] - onto * closing[last - 1] - off * closing[0]);
  solution[last] = end;
  for (let k = 0; k < last; k++) solution[k] = known[k] - closing[k] * end;
}

/**
 * One implicit step of div(conductance * grad u) along every line of a field, in place: as long a step
 * as wanted. Each line keeps its sum to rounding (what leaves a cell enters the next) and no value
 * leaves the range of the old ones. A whole field takes a step along x, then one along y (locally
 * one-dimensional splitting; N. Yanenko, *The method of fractional steps*, 1971).
 *
 * @param values      One number per cell.
 * @param conductance Of the face between each cell and the next on its line, times the time step, by
 *   the square of the cell size; 0 or more.
 * @param flux        Receives what passed through that face, in units of the values, if given.
 */
export function diffuseLines(
  { count, length, cells }: FieldLines,
  values: Float64Array,
  conductance: Float64Array,
  store: LineStore,
  flux?: Float64Array,
): void {
  const { lower, diagonal, upper, right, solution } = store;
  if (length === 1) {
    flux?.fill(0);
    return;
  }
  for (let n = 0; n < count; n++) {
    const first = n * length;
    let back = conductance[cells[first + length - 1]];
    for (let k = 0; k < length; k++) {
      const cell = cells[first + k];
      const forth = conductance[cell];
      lower[k] = -back;
      upper[k] = -forth;
      diagonal[k] = 1 + back + forth;
      right[k] = values[cell];
      back = forth;
    }
    solveCyclic(store, length);
    // The solution's differences give the fluxes, the fluxes the new values: so nothing is lost.
    let entering = -upper[length - 1] * (solution[length - 1] - solution[0]);
    for (let k = 0; k < length; k++) {
      const cell = cells[first + k];
      const leaving = -upper[k] * (solution[k] - solution[k + 1 < length ? k + 1 : 0]);
      values[cell] = right[k] + entering - leaving;
      if (flux) flux[cell] = leaving;
      entering = leaving;
    }
  }
}
