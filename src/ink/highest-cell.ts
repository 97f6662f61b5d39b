/** Cells of one run; runs of one stretch. Both as found fastest for a quarter of a million cells. */
const RUN = 32;
const STRETCH = 64;
const LOWEST = -(2 ** 31);

/**
 * Which of many cells has the highest value, found again after a few have changed without looking at
 * the rest. The lowest place wins where two are alike.
 */
export interface HighestCell {
  /** Says that the values of `from` <= cell < `to` may have changed. */
  touch(from: number, to: number): void;
  /** The place of the highest value; -1 where no cell stands for choice. */
  find(): number;
}

/** What is chosen from. */
export interface CellChoice {
  readonly energy: Int32Array;
  /** 1 for a cell that stands, 0 for one that does not. */
  readonly pattern: Uint8Array;
  /** Which of the two stand for choice. */
  readonly among: 0 | 1;
  /** 1 for the highest energy, -1 for the lowest. */
  readonly sign: 1 | -1;
}

export function createHighestCell({ energy, pattern, among, sign }: CellChoice): HighestCell {
  const count = energy.length;
  const runs = Math.ceil(count / RUN);
  const stretches = Math.ceil(runs / STRETCH);
  const runBest = new Int32Array(runs).fill(-1);
  const runValue = new Int32Array(runs).fill(LOWEST);
  const stretchBest = new Int32Array(stretches).fill(-1);
  const isRunStale = new Uint8Array(runs).fill(1);
  const isStretchStale = new Uint8Array(stretches).fill(1);

  function lookAtRun(run: number): void {
    let best = -1;
    let value = LOWEST;
    const end = Math.min(count, (run + 1) * RUN);
    for (let cell = run * RUN; cell < end; cell++) {
      const one = sign * energy[cell];
      if (one > value && pattern[cell] === among) {
        value = one;
        best = cell;
      }
    }
    runBest[run] = best;
    runValue[run] = value;
    isRunStale[run] = 0;
  }

  function lookAtStretch(stretch: number): void {
    let best = -1;
    let value = LOWEST;
    const end = Math.min(runs, (stretch + 1) * STRETCH);
    for (let run = stretch * STRETCH; run < end; run++) {
      if (isRunStale[run]) lookAtRun(run);
      if (runValue[run] > value) {
        value = runValue[run];
        best = run;
      }
    }
    stretchBest[stretch] = best;
    isStretchStale[stretch] = 0;
  }

  return {
    touch(from, to) {
      const last = Math.floor((to - 1) / RUN);
      for (let run = Math.floor(from / RUN); run <= last; run++) {
        isRunStale[run] = 1;
        isStretchStale[Math.floor(run / STRETCH)] = 1;
      }
    },
    find() {
      let best = -1;
      let value = LOWEST;
      for (let stretch = 0; stretch < stretches; stretch++) {
        if (isStretchStale[stretch]) lookAtStretch(stretch);
        const run = stretchBest[stretch];
        if (run < 0 || runValue[run] <= value) continue;
        value = runValue[run];
        best = runBest[run];
      }
      return best;
    },
  };
}
