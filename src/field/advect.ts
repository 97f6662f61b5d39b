import type { FieldLines } from './lines.ts';

/** Memory for `advectLines`. */
export interface AdvectStore {
  /** The values of a line before the step, one per cell. */
  readonly old: Float64Array;
  /** Their slopes, one per cell. */
  readonly slope: Float64Array;
}

/** Memory for lines of so many cells at most. */
export function openAdvectStore(length: number): AdvectStore {
  return { old: new Float64Array(length), slope: new Float64Array(length) };
}

/**
 * Carries a quantity along every line of a field for one step, in place: m_t + (v m)_x = 0.
 *
 * Second order where smooth, by the harmonic slopes of B. van Leer, *Towards the ultimate conservative
 * difference scheme II* (1974). Each line keeps its sum to rounding. Values of 0 or more stay so
 * where no cell is emptied: the Courant numbers of the flow out of its two faces sum to 1 or less. In a
 * uniform flow no new extremes appear.
 *
 * @param courant Of the face between each cell and the next on its line: velocity * time step / cell
 *   size, positive towards the next cell, within -1..1.
 */
export function advectLines(
  { count, length, cells }: FieldLines,
  values: Float64Array,
  courant: Float64Array,
  { old, slope }: AdvectStore,
): void {
  for (let n = 0; n < count; n++) {
    const first = n * length;
    for (let k = 0; k < length; k++) old[k] = values[cells[first + k]];
    limitSlopes(old, slope, length);
    const closing = faceFlux(old, slope, length - 1, 0, courant[cells[first + length - 1]]);
    let entering = closing;
    for (let k = 0; k < length - 1; k++) {
      const cell = cells[first + k];
      const leaving = faceFlux(old, slope, k, k + 1, courant[cell]);
      values[cell] = old[k] + entering - leaving;
      entering = leaving;
    }
    values[cells[first + length - 1]] = old[length - 1] + entering - closing;
  }
}

/** The harmonic mean of the steps on both sides, 0 at an extreme; of a whole cell. */
function limitSlopes(old: Float64Array, slope: Float64Array, length: number): void {
  let back = old[0] - old[length - 1];
  for (let k = 0; k < length; k++) {
    const forth = old[k + 1 < length ? k + 1 : 0] - old[k];
    const product = back * forth;
    slope[k] = product > 0 ? (2 * product) / (back + forth) : 0;
    back = forth;
  }
}

function faceFlux(old: Float64Array, slope: Float64Array, here: number, next: number, c: number): number {
  return c >= 0
    ? c * (old[here] + 0.5 * (1 - c) * slope[here])
    : c * (old[next] - 0.5 * (1 + c) * slope[next]);
}
