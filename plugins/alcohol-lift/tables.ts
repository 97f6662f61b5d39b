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

/** Parts from here on are not told apart. */
export const BEYOND = 1.15 * REACH;

/** Entries up to `BEYOND`, with one more to interpolate to and some room for frayed edges. */
const ENTRIES = Math.ceil((BEYOND / REACH) * RINGS) + 2;
/** Entries per radius of the opening. */
export const ENTRIES_PER_RADIUS = RINGS / REACH;
export const LAST_ENTRY = ENTRIES - 2;
/** Widths grow by doubling from one entry on. */
const WIDTHS = 9;

export function depthTables(bank: readonly Profile[]): DepthTables {
  const stride = 2 * ENTRIES;
  const values = new Float32Array(2 * bank.length * WIDTHS * stride);
  [...bank.map(wholeOf), ...bank.map(innerOf)].forEach(({ weak, strong }, kind) => {
    [weak, strong].forEach((table, side) => {
      const sums = runningSums(table);
      for (let width = 0; width < WIDTHS; width++) {
        const first = (kind * WIDTHS + width) * stride;
        fillMeans(sums, 2 ** (width - 1), values, first + side);
      }
    });
  });
  return { values, stride };
}

type Depths = Pick<Profile, 'weak' | 'strong'>;

/**
 * Openings from this radius on, mm, have the slope around them baked into a field, and only what lies
 * within `SLOPE` radii is drawn from patches: a depth is the product of both.
 */
const BAKED_RADIUS = 1.3;
/** Radii from which on a slope is smooth enough for the field's cells. */
const SLOPE = 1.2;
/** Radii that a patch covers then: room for frayed edges. */
const INNER_REACH = 1.42;

/** Whether the slope around an opening is in the field. */
export function isBaked(radius: number): boolean {
  return radius >= BAKED_RADIUS;
}

/** How many radii of an opening its patch covers. */
export function reachOfPatch(radius: number): number {
  return isBaked(radius) ? INNER_REACH : REACH;
}

/** The depth on the slope around an opening; within, that at its inner end. */
export function slopeAt(depth: Float32Array, part: number): number {
  const place = Math.max(SLOPE, Math.min(REACH, part)) * ENTRIES_PER_RADIUS;
  const ring = Math.min(RINGS - 1, place | 0);
  return depth[ring] + (place - ring) * (depth[ring + 1] - depth[ring]);
}

function innerOf({ weak, strong }: Depths): Depths {
  const inner = (table: Float32Array) =>
    table.map((depth, ring) => (ring < SLOPE * ENTRIES_PER_RADIUS ? depth / slopeAt(table, SLOPE) : 1));
  return { weak: inner(weak), strong: inner(strong) };
}

/** Small openings heap little around them: most of it had run on. */
function wholeOf({ weak, strong }: Depths): Depths {
  const lowered = (table: Float32Array) =>
    table.map((depth) => (depth > 1 ? 1 + SMALL_HEAP * (depth - 1) : depth));
  return { weak: lowered(weak), strong: lowered(strong) };
}

const SMALL_HEAP = 0.5;

/**
 * Where the table of an opening begins.
 *
 * @param kind  Of its profile in a bank of `kinds`.
 * @param width Of a pixel, in radii of the opening.
 */
export function tableStart(tables: DepthTables, kind: number, width: number, radius: number): number {
  const { stride } = tables;
  const kinds = tables.values.length / (2 * WIDTHS * stride);
  return startOf(stride, isBaked(radius) ? kinds + kind : kind, width);
}

function startOf(stride: number, kind: number, width: number): number {
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

/**
 * The mean over `half` entries to either side of each entry, to every second place from `first` on; the profile is
 * the same on the other side of the centre.
 */
function fillMeans(sums: Float64Array, half: number, values: Float32Array, first: number): void {
  for (let entry = 0; entry < ENTRIES; entry++)
    values[first + 2 * entry] = (sumTo(sums, entry + half) - sumTo(sums, entry - half)) / (2 * half);
}

function sumTo(sums: Float64Array, place: number): number {
  const far = Math.abs(place);
  const low = Math.min(sums.length - 2, Math.floor(far));
  const sum = sums[low] + (far - low) * (sums[low + 1] - sums[low]);
  return place < 0 ? -sum : sum;
}
