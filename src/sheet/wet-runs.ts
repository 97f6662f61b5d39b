/**
 * Finds the runs of a closed line that water may move in: wet cells and the dry ones beside them. All else is
 * skipped, which is most of a sheet as it dries.
 *
 * @param film  Of each cell of the line; wet where above 0.
 * @param found Receives, flat, the first cell and the count of each run; a run may go on past the end of the
 *   line. A run of the whole line is a loop.
 * @returns How many numbers `found` holds.
 */
export function findWetRuns(film: Float64Array, length: number, found: Int32Array): number {
  const start = firstIdle(film, length);
  if (start < 0) {
    found[0] = 0;
    found[1] = length;
    return 2;
  }
  let at = 0;
  let open = false;
  // From an idle cell on, so that no run is cut in two; wet ahead means that this cell is beside it.
  let before = false;
  let here = film[start] > 0;
  for (let n = 0, k = start; n < length; n++) {
    const next = k + 1 === length ? 0 : k + 1;
    const after = film[next] > 0;
    const active = before || here || after;
    if (active && !open) {
      found[at] = k;
      found[at + 1] = 0;
      open = true;
    }
    if (active) found[at + 1]++;
    else if (open) {
      at += 2;
      open = false;
    }
    before = here;
    here = after;
    k = next;
  }
  return open ? at + 2 : at;
}

/** A cell that is dry between dry ones, or -1. */
function firstIdle(film: Float64Array, length: number): number {
  let before = film[length - 1] > 0;
  let here = film[0] > 0;
  for (let k = 0; k < length; k++) {
    const after = film[k + 1 === length ? 0 : k + 1] > 0;
    if (!before && !here && !after) return k;
    before = here;
    here = after;
  }
  return -1;
}
