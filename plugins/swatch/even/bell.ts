/**
 * The bell curve of a plane of numbers: each number by its rank becomes one of a normal distribution (mean 0,
 * deviation 1), and a table leads back. Sums of such numbers, scaled to deviation 1, are again normal, so that the
 * table gives sums the histogram that the plane had (Heitz and Neyret 2018).
 */

/** Deviations from the mean at either end of a table. */
export const REACH = 5;
/** Entries of a table, from -REACH to REACH. */
export const ENTRIES = 2048;
/** Entries per deviation. */
export const PER_DEVIATION = (ENTRIES - 1) / (2 * REACH);

/** The number that stands at each step of the bell curve, least first; `ENTRIES` of them and the last one twice. */
export function tableOf(plane: Float32Array): Float32Array {
  const sorted = Float32Array.from(plane).sort();
  const table = new Float32Array(ENTRIES + 1);
  for (let k = 0; k < ENTRIES; k++) {
    const place = shareBelow(k / PER_DEVIATION - REACH) * sorted.length - 0.5;
    const inside = Math.max(0, Math.min(sorted.length - 1, place));
    const low = Math.floor(inside);
    const high = Math.min(sorted.length - 1, low + 1);
    table[k] = sorted[low] + (inside - low) * (sorted[high] - sorted[low]);
  }
  table[ENTRIES] = table[ENTRIES - 1];
  return table;
}

/** Buckets that say where in the table to begin to look. */
const BUCKETS = 4096;

/** Where each number of a plane stands on the bell curve that the table is of: the table backwards. */
export function onBell(plane: Float32Array, table: Float32Array): Float32Array {
  const [least, most] = [table[0], table[ENTRIES - 1]];
  if (!(most > least)) return new Float32Array(plane.length);
  const perBucket = BUCKETS / (most - least);
  const first = new Int32Array(BUCKETS + 1);
  for (let bucket = 0, k = 0; bucket <= BUCKETS; bucket++) {
    while (k < ENTRIES - 2 && table[k + 1] < least + (bucket - 1) / perBucket) k++;
    first[bucket] = k;
  }
  return plane.map((given) => {
    const value = Math.min(most, Math.max(least, given));
    let low = first[Math.floor((value - least) * perBucket)];
    while (table[low + 1] < value) low++;
    const [before, after] = [table[low], table[low + 1]];
    if (value > before && value < after) return at(low + (value - before) / (after - before));
    // Where the table stands still over several entries the middle of them is meant.
    const from = value > before ? low + 1 : low;
    let to = from;
    while (to < ENTRIES - 1 && table[to + 1] === value) to++;
    return at((from + to) / 2);
  });
}

function at(entry: number): number {
  return entry / PER_DEVIATION - REACH;
}

/**
 * The share of a normal distribution below a place: Abramowitz and Stegun 1964, 26.2.17, off by less than 7.5e-8,
 * which is less than one number in a plane of ten million.
 */
export function shareBelow(place: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(place));
  const tail =
    ((((1.330274429 * t - 1.821255978) * t + 1.781477937) * t - 0.356563782) * t + 0.31938153) *
    t *
    Math.exp((-place * place) / 2) *
    (1 / Math.sqrt(2 * Math.PI));
  return place > 0 ? 1 - tail : tail;
}
