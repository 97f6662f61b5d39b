import type { Measured } from './measure.ts';
import { medianOf } from './median.ts';
import type { Room } from './room.ts';

/**
 * How a measure is gathered along a stretch of a line. Each sees another sort of fault:
 * - `peak`   the largest single place
 * - `mean`   the length of the mean: a weak jump of one sign, out of noise
 * - `rms`    the root of the mean square: jumps of all signs, as where a texture does not go on
 * - `median` the length of the median: a jump along most of the stretch, however wild the rest is.
 *   Outlines that cross the line leave it at zero, a difference of tone or a motif cut off does not.
 */
export type PoolName = 'peak' | 'mean' | 'rms' | 'median';

/** One pooling: over every stretch of `window` places, the largest counts. */
export interface Pool {
  readonly name: PoolName;
  readonly window: number;
}

const FIRST_WINDOW = 16;
const WINDOW_GROWTH = 4;
/** A median over more places than this is taken from as many, spread evenly. */
const MOST_OF_MEDIAN = 256;

/**
 * The poolings of a line of `count` places: the single place and the whole line, and with `stretches`
 * those of 16, 64, 256 and so on.
 */
export function poolsOf(count: number, stretches: boolean): Pool[] {
  const pools: Pool[] = [{ name: 'peak', window: 1 }];
  const windows: number[] = [];
  for (let window = FIRST_WINDOW; stretches && window < count; window *= WINDOW_GROWTH) windows.push(window);
  for (const window of [...windows, count]) {
    for (const name of ['mean', 'rms', 'median'] as const) pools.push({ name, window });
  }
  return pools;
}

/** Of each pool the largest value, and the first place of the stretch where that was. */
export interface Pooled {
  readonly values: Float64Array;
  readonly starts: Int32Array;
}

/** Pools a measure along a line. */
export function poolLine(measured: Measured, pools: readonly Pool[], room: Room): Pooled {
  const values = new Float64Array(pools.length);
  const starts = new Int32Array(pools.length);
  const sums = new Sums(measured, room);
  pools.forEach(({ name, window }, k) => {
    const pace = Math.max(1, window >> 1);
    const last = sums.count - window;
    let [largest, start] = [-1, 0];
    for (let place = 0; ; place += pace) {
      const from = Math.min(place, last);
      const value = sums.pooled(name, from, window, largest);
      if (value > largest) [largest, start] = [value, from];
      if (place >= last) break;
    }
    values[k] = largest;
    starts[k] = start;
  });
  return { values, starts };
}

/** Running sums, so that a stretch of any length costs the same. */
class Sums {
  readonly count: number;
  private readonly measured: Measured;
  private readonly totals: readonly Float64Array[];
  private readonly squares: Float64Array;
  private readonly few = new Float32Array(MOST_OF_MEDIAN);

  /** @param room For the sums, which last until it is asked again. */
  constructor(measured: Measured, room: Room) {
    this.measured = measured;
    this.count = measured[0].length;
    this.squares = room.doubles(0, this.count + 1);
    this.totals = measured.map((values, k) =>
      addRunning(values, room.doubles(1 + k, this.count + 1), this.squares),
    );
    for (let place = 0; place < this.count; place++) this.squares[place + 1] += this.squares[place];
  }

  /** @param beaten A median that cannot be larger than this is not taken: 0 comes instead. */
  pooled(name: PoolName, from: number, window: number, beaten: number): number {
    const square = Math.max(0, this.squares[from + window] - this.squares[from]) / window;
    // Nothing there: on flat grounds nearly every stretch, and a median costs a sort.
    if (square < 1e-9) return 0;
    if (name === 'mean') return this.meanLength(from, window);
    // Half of the values lie beyond a median, so its square is at most twice their mean square.
    if (name === 'median' && 2 * square <= beaten * beaten) return 0;
    if (name === 'median') return this.medianLength(from, window);
    return Math.sqrt(square);
  }

  private meanLength(from: number, window: number): number {
    let sum = 0;
    for (const total of this.totals) sum += ((total[from + window] - total[from]) / window) ** 2;
    return Math.sqrt(sum);
  }

  private medianLength(from: number, window: number): number {
    let sum = 0;
    for (const values of this.measured) sum += this.median(values, from, window) ** 2;
    return Math.sqrt(sum);
  }

  private median(values: Float32Array, from: number, window: number): number {
    const taken = Math.min(window, MOST_OF_MEDIAN);
    const few = this.few.subarray(0, taken);
    for (let k = 0; k < taken; k++) few[k] = values[from + Math.floor((k * window) / taken)];
    return medianOf(few);
  }
}

/** Fills in the running totals of one channel; adds its squares, not yet running, to `squares`. */
function addRunning(values: Float32Array, totals: Float64Array, squares: Float64Array): Float64Array {
  for (let place = 0; place < values.length; place++) {
    totals[place + 1] = totals[place] + values[place];
    squares[place + 1] += values[place] * values[place];
  }
  return totals;
}
