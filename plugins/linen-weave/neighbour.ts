import { modulo } from 'tenter';
import type { ThreadSet } from './threads.ts';

/**
 * Adds `gain` times a thread's cells to `target`, from `start` on. The thread may be of the next box:
 * its cells then lie turned by the slip.
 */
export function addThread(
  target: Float32Array | Float64Array,
  start: number,
  { count, cells, step, slip }: ThreadSet,
  table: Float32Array,
  thread: number,
  gain: number,
): void {
  const boxes = Math.floor(thread / count);
  // Only a set without `step` has a slip, so a cell that wraps stays on its thread.
  const from = (thread - boxes * count) * cells;
  const turn = step === 0 ? modulo(-boxes * slip, cells) : 0;
  const split = cells - turn;
  for (let c = 0; c < split; c++) target[start + c] += gain * table[from + turn + c];
  for (let c = split; c < cells; c++) target[start + c] += gain * table[from + c - split];
}

/** Threads on either side over which a cloth is evened, and the share of their common part that goes. */
const EVENED = 8;
const SHARE = 0.75;

/**
 * Takes most of what neighbouring threads have in common out of a table, cell by cell. Mills mix
 * bobbins to the same end: chance clusters of thick or light yarns would stand out as clouds, and a
 * cloud that comes back with every repeat is the first thing the eye finds.
 */
export function evenOut(set: ThreadSet, table: Float32Array, middle: number): Float32Array {
  const { count, cells } = set;
  const threads = 2 * EVENED + 1;
  const sum = new Float64Array(cells);
  const evened = new Float32Array(table);
  for (let thread = -EVENED; thread < EVENED; thread++) addThread(sum, 0, set, table, thread, 1);
  for (let thread = 0; thread < count; thread++) {
    addThread(sum, 0, set, table, thread + EVENED, 1);
    takeOut(evened, thread * cells, sum, SHARE / threads, SHARE * middle);
    addThread(sum, 0, set, table, thread - EVENED, -1);
  }
  return evened;
}

/** Takes `gain * sum - rest` from each cell from `start` on. */
function takeOut(table: Float32Array, start: number, sum: Float64Array, gain: number, rest: number): void {
  for (let c = 0; c < sum.length; c++) table[start + c] -= gain * sum[c] - rest;
}
