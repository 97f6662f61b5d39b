/** How long the rest of a pass will take. */
export interface BandPace {
  /**
   * Told of every band.
   *
   * @param who  Which thread painted it.
   * @param rows Rows of the band.
   * @param now  ms.
   * @returns ms that one thread still needs, by the fastest band so far: the first ones are compiled while they run.
   *   0 until a thread has said a second band: nobody knows when its first began.
   */
  left(who: number, rows: number, now: number): number;
}

/** ms. Words that waited for the main thread come at once, and say nothing of how long a band took. */
const WAITED = 1;

/** @param height Rows of the pass. */
export function openBandPace(height: number): BandPace {
  const last = new Map<number, number>();
  let fastest = Number.POSITIVE_INFINITY;
  let rowsLeft = height;
  return {
    left(who, rows, now) {
      rowsLeft -= rows;
      const took = now - (last.get(who) ?? now);
      if (took >= WAITED) fastest = Math.min(fastest, took / rows);
      last.set(who, now);
      return fastest === Number.POSITIVE_INFINITY ? 0 : fastest * rowsLeft;
    },
  };
}
