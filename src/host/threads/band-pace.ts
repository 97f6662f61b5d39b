/** How long the rest of a pass will take. */
export interface BandPace {
  /**
   * Told of every band.
   *
   * @param rows Rows of the band.
   * @param now  ms.
   * @returns ms that one thread still needs, by the fastest band so far: the first ones are compiled while they run.
   *   0 after the first band, of which nobody knows when it began.
   */
  left(rows: number, now: number): number;
}

/** @param height Rows of the pass. */
export function openBandPace(height: number): BandPace {
  let last: number | undefined;
  let fastest = Number.POSITIVE_INFINITY;
  let rowsLeft = height;
  return {
    left(rows, now) {
      rowsLeft -= rows;
      if (last !== undefined) fastest = Math.min(fastest, (now - last) / rows);
      last = now;
      return fastest === Number.POSITIVE_INFINITY ? 0 : fastest * rowsLeft;
    },
  };
}
