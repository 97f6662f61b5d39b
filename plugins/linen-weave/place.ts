import { addNoiseRow, type Lattice, latticeNoise, NOISE_DEVIATION, type RandomStream } from 'tenter';
import { type Draft, isWarpUp } from './draft.ts';
import { addThread } from './neighbour.ts';
import type { ThreadSet } from './threads.ts';
import type { YarnTables } from './yarn.ts';

/** A thread's own straying, its neighbours' push and the pull of the weave together stay within this share of the pitch. */
const LARGEST_OWN_OFFSET = 0.3;
/** The share of its half width by which a thread pushes its neighbour away, and how that dies out from thread to thread. */
export const PUSH = 0.62;
export const PUSH_DECAY = 0.6;
export const PUSH_REACH = 3;
/** How far threads that rise and sink together draw towards each other, in pitches. */
const PAIRING = 0.1;
/** Wavelengths of the cloth's own straying, mm, with their shares. */
const CLOTH_WAVES = [
  { mm: 70, share: 0.9 },
  { mm: 22, share: 0.44 },
] as const;

/**
 * Puts the threads in their places: adds to `offset` what the neighbours, the weave and the whole
 * cloth do to each crossing.
 *
 * @param lattice  The repeat in mm, its first axis along the threads of this set.
 * @param straying Deviation of the cloth as a whole, mm.
 */
export function placeThreads(
  set: ThreadSet,
  tables: YarnTables,
  together: Togetherness,
  lattice: Lattice,
  straying: number,
  random: RandomStream,
): void {
  const waves = CLOTH_WAVES.map(({ mm, share }) => ({
    noise: latticeNoise(lattice, { along: mm, across: mm }, random),
    gain: (straying * share) / NOISE_DEVIATION,
  }));
  const limit = LARGEST_OWN_OFFSET * set.pitch;
  for (let thread = 0; thread < set.count; thread++) {
    const start = thread * set.cells;
    for (let reach = 1, gain = PUSH; reach <= PUSH_REACH; reach++, gain *= PUSH_DECAY) {
      addThread(tables.offset, start, set, tables.half, thread - reach, gain);
      addThread(tables.offset, start, set, tables.half, thread + reach, -gain);
    }
    addPairing(tables.offset, start, set.cells, PAIRING * set.pitch, together, thread);
    clamp(tables.offset, start, start + set.cells, limit);
    const across = (thread + 0.5) * set.pitch;
    if (straying === 0) continue;
    for (const { noise, gain } of waves) {
      addNoiseRow(noise, set.cellLength / 2, set.cellLength, across, gain, tables.offset, set.cells, start);
    }
  }
}

function addPairing(
  offset: Float32Array,
  start: number,
  cells: number,
  gain: number,
  { period, pull }: Togetherness,
  thread: number,
): void {
  const row = (thread % period) * period;
  for (let cell = 0, inRow = 0; cell < cells; cell++) {
    offset[start + cell] += gain * pull[row + inRow];
    if (++inRow === period) inRow = 0;
  }
}

function clamp(values: Float32Array, from: number, to: number, limit: number): void {
  for (let k = from; k < to; k++) {
    const value = values[k];
    if (value > limit) values[k] = limit;
    else if (value < -limit) values[k] = -limit;
  }
}

/**
 * How strongly a thread is drawn to its higher neighbour (+1) or its lower one (-1), for every cell
 * of every thread of one repeat of the draft, thread by thread.
 */
export interface Togetherness {
  readonly period: number;
  readonly pull: Float32Array;
}

/**
 * Reads the pull out of a draft: where the crossing threads pass between two neighbours they hold
 * them apart, where they do not the two lie close. Averaged over a cell and the two beside it.
 */
export function togetherness(draft: Draft, isWarp: boolean): Togetherness {
  const period = draft.across;
  const up = (thread: number, cell: number) =>
    isWarp ? isWarpUp(draft, thread, cell) : isWarpUp(draft, cell, thread);
  const pull = new Float32Array(period * period);
  for (let thread = 0; thread < period; thread++) {
    for (let cell = 0; cell < period; cell++) {
      let sum = 0;
      for (let near = cell - 1; near <= cell + 1; near++) {
        const own = up(thread, near);
        sum += (own === up(thread + 1, near) ? 1 : 0) - (own === up(thread - 1, near) ? 1 : 0);
      }
      pull[thread * period + cell] = sum / 3;
    }
  }
  return { period, pull };
}
