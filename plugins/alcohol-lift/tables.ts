import { BEYOND } from './patch.ts';
import { type Profile, REACH, RINGS } from './profile.ts';

/**
 * The depths of a bank of profiles as pixels of any size see them: for each profile a table for each
 * of several widths, in which every value is the mean over that width. Weak and strong rim in turn.
 */
export interface DepthTables {
  readonly values: Float32Array;
  /** Numbers per table. */
  readonly stride: number;
}

/** Entries up to `BEYOND`, with one more to interpolate to and some room for frayed edges. */
const ENTRIES = Math.ceil((BEYOND / REACH) * RINGS) + 2;
/** Entries per radius of the opening. */
export const ENTRIES_PER_RADIUS = RINGS / REACH;
export const LAST_ENTRY = ENTRIES - 2;
/** Widths grow by doubling from one entry on. */
const WIDTHS = 9;

export function depthTables(bank: readonly Profile[]): DepthTables {
  const stride = 2 * ENTRIES;
  const values = new Float32Array(bank.length * WIDTHS * stride);
  bank.forEach(({ weak, strong }, kind) => {
    [weak, strong].forEach((table, side) => {
      const sums = runningSums(table);
      for (let width = 0; width < WIDTHS; width++) {
        const first = (kind * WIDTHS + width) * stride;
        for (let entry = 0; entry < ENTRIES; entry++)
          values[first + 2 * entry + side] = meanAround(sums, entry, 2 ** (width - 1));
      }
    });
  });
  return { values, stride };
}

/** Where the table of a profile begins for pixels `width` wide, in radii of the opening. */
export function tableStart({ stride }: DepthTables, kind: number, width: number): number {
  const steps = Math.round(Math.log2(Math.max(1, width * ENTRIES_PER_RADIUS)));
  return (kind * WIDTHS + Math.min(WIDTHS - 1, steps)) * stride;
}

/** Integrals from 0 to each entry; beyond the table the sheet lies undisturbed. */
function runningSums(table: Float32Array): Float64Array {
  const sums = new Float64Array(3 * ENTRIES);
  const value = (entry: number) => (entry <= RINGS ? table[entry] : 1);
  for (let entry = 1; entry < sums.length; entry++)
    sums[entry] = sums[entry - 1] + 0.5 * (value(entry - 1) + value(entry));
  return sums;
}

/** The mean over `half` entries to either side; the profile is the same on the other side of the centre. */
function meanAround(sums: Float64Array, entry: number, half: number): number {
  const at = (place: number): number => {
    if (place < 0) return -at(-place);
    const low = Math.min(sums.length - 2, Math.floor(place));
    return sums[low] + (place - low) * (sums[low + 1] - sums[low]);
  };
  return (at(entry + half) - at(entry - half)) / (2 * half);
}
