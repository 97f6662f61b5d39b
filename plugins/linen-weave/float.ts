import { type Draft, isWarpUp } from './draft.ts';

/**
 * Of the thread on top at each crossing of a draft: the float it makes there, which runs from where it comes up
 * to where it goes down. Indexed as `Draft.warpUp`.
 */
export interface Floats {
  /** Crossings from this one to the middle of the float, along the thread; halves are possible. */
  readonly toMiddle: Float32Array;
  /** Crossings that the float passes over. */
  readonly length: Float32Array;
}

/** Reads the floats out of a draft. A thread that never goes down has one as long as the repeat. */
export function floatsOf(draft: Draft): Floats {
  const { across, down } = draft;
  const toMiddle = new Float32Array(across * down);
  const length = new Float32Array(across * down);
  for (let pick = 0; pick < down; pick++) {
    for (let end = 0; end < across; end++) {
      const isWarp = isWarpUp(draft, end, pick);
      const isOver = (step: number) =>
        isWarp ? isWarpUp(draft, end, pick + step) : !isWarpUp(draft, end + step, pick);
      const period = isWarp ? down : across;
      const before = runOf((step) => isOver(-step), period);
      const after = runOf(isOver, period - before);
      const at = pick * across + end;
      toMiddle[at] = (after - before) / 2;
      length[at] = before + 1 + after;
    }
  }
  return { toMiddle, length };
}

/** How many steps in a row it goes on over, less than `period`. */
function runOf(isOver: (step: number) => boolean, period: number): number {
  let run = 0;
  while (run + 1 < period && isOver(run + 1)) run++;
  return run;
}
