import { greatestCommonDivisor, modulo } from 'tenter';
import type { Sett } from './sett.ts';

/**
 * One set of parallel threads, warp or weft, on the torus of crossings. A cell is the piece of a
 * thread from one crossing to the next. Cell `c` of thread `k` is one with cell `c + cells` of
 * thread `k + step` and with cell `c + slip` of thread `k + count`; `step` or `slip` is 0.
 */
export interface ThreadSet {
  readonly count: number;
  /** Crossings along one thread of the box. */
  readonly cells: number;
  readonly step: number;
  readonly slip: number;
  /** mm from thread to thread. */
  readonly pitch: number;
  /** mm from crossing to crossing along the thread. */
  readonly cellLength: number;
}

/** The ends of a sett. */
export function warpThreads({ ends, picks, endStep, pickStep, endPitch, pickPitch }: Sett): ThreadSet {
  return {
    count: ends,
    cells: picks,
    step: endStep,
    slip: pickStep,
    pitch: endPitch,
    cellLength: pickPitch,
  };
}

/** The picks of a sett. */
export function weftThreads({ ends, picks, endStep, pickStep, endPitch, pickPitch }: Sett): ThreadSet {
  return {
    count: picks,
    cells: ends,
    step: pickStep,
    slip: endStep,
    pitch: pickPitch,
    cellLength: endPitch,
  };
}

/** How many different yarns a set holds: across a drop or brick the threads of a box join into loops. */
export function loopCount({ count, step }: ThreadSet): number {
  return greatestCommonDivisor(count, step);
}

/** How often a yarn crosses the box before it meets its own start. */
export function lapCount(set: ThreadSet): number {
  return set.count / loopCount(set);
}

/**
 * The thread that loop `loop` follows on its lap `lap`. Leaving the box at its far edge, a yarn
 * comes in again `step` threads earlier, for cell `cells` of thread k is cell 0 of thread k - step.
 */
export function threadOfLap({ count, step }: ThreadSet, loop: number, lap: number): number {
  return modulo(loop - lap * step, count);
}

/** A cell of a thread. */
export interface CellPlace {
  readonly thread: number;
  readonly cell: number;
}

/** The copy inside the box of any cell of any thread of the plane. */
export function placeInBox({ count, cells, step, slip }: ThreadSet, thread: number, cell: number): CellPlace {
  const boxes = Math.floor(thread / count);
  const inBox = cell - boxes * slip;
  const laps = Math.floor(inBox / cells);
  return { thread: modulo(thread - boxes * count - laps * step, count), cell: inBox - laps * cells };
}
