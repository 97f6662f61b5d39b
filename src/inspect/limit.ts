/** What the inside of a picture shows of one figure, and what is therefore still believed of a seam. */
export interface Limit {
  /** The largest inside. */
  readonly inside: number;
  /** Above this a seam is no line like those inside. */
  readonly limit: number;
}

/**
 * The chance, e to the minus this, that a line like those inside passes the limit of one figure: about 1
 * in 3,000. A seam has 30 to 60 figures, most of which rise and fall together; the false alarms of
 * whole pictures were measured, see `checkSeams`.
 */
const SURPRISE = 8;
/** No less than this share of the spread above the largest, and this share of the largest itself. */
const LEAST_SHARE = 0.15;
export const LEAST_RISE = 1.05;
/** JPEG codes blocks of 8 px, and colour at half the resolution in blocks of 16: steps gather there. */
const BLOCKS = [8, 16];
const FEWEST_LINES = 4;

/**
 * The limit of a figure from its values at lines inside.
 *
 * A seam of a closed picture is a line like any other, so its figure is one more draw of the
 * same lot. The lot's tail is taken as exponential, as of a largest value (Gumbel): the largest of m
 * draws stands ln m scale lengths above the median (less 0.37), and the limit as much higher
 * as `SURPRISE` asks. Lines on the block grid of JPEG are also taken as a lot of their own.
 *
 * @param values    One per line inside.
 * @param positions Column or row of each line.
 * @param distinct  How many of the lines do not overlap, so that they count as draws.
 */
export function limitOf(values: readonly number[], positions: readonly number[], distinct: number): Limit {
  const all = lotOf(values);
  let limit = tail(all, all.median, distinct);
  for (const block of BLOCKS) {
    const some = values.filter((_, k) => positions[k] % block === 0);
    if (some.length < FEWEST_LINES) continue;
    const lot = lotOf(some);
    limit = Math.max(limit, tail(lot, Math.max(lot.median, all.median), distinct));
  }
  return { inside: all.largest, limit };
}

/**
 * Below this a figure is too small to belong to a line like those inside: the same tail, in logarithms.
 * 0 where the inside has lines at which nothing changes at all.
 */
export function lowLimitOf(values: readonly number[], distinct: number): number {
  const least = Math.min(...values);
  if (!(least > 0)) return 0;
  const logarithms = lotOf(values.map((value) => -Math.log(value)));
  return Math.exp(-tail(logarithms, logarithms.median, distinct, false));
}

interface Lot {
  readonly count: number;
  readonly largest: number;
  readonly median: number;
}

function lotOf(values: readonly number[]): Lot {
  const sorted = Float64Array.from(values).sort();
  return { count: sorted.length, largest: sorted[sorted.length - 1], median: sorted[sorted.length >> 1] };
}

function tail({ count, largest }: Lot, median: number, distinct: number, positive = true): number {
  const draws = Math.log(Math.max(FEWEST_LINES, Math.min(count, distinct)));
  const share = Math.max(LEAST_SHARE, (SURPRISE - draws) / (draws - 0.37));
  const limit = largest + share * (largest - median);
  return positive ? Math.max(limit, LEAST_RISE * largest) : limit;
}
