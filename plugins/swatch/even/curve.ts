import { ENTRIES, PER_DEVIATION, REACH, shareBelow } from './bell.ts';

/**
 * How numbers of one axis hang on the first one: their mean and their deviation at each entry of its table. Paint
 * of one pot runs along a curve through the colours, from bare paper to where it lies thick; taken as independent
 * its axes would give colours that are nowhere in the swatch.
 */
export interface Curve {
  readonly mean: Float32Array;
  readonly deviation: Float32Array;
}

/** Numbers that a bin should hold, and bins at most. */
const PER_BIN = 400;
const MOST_BINS = 64;
/** Deviations are no less than this, or what has none would be divided by 0. */
const LEAST_DEVIATION = 1e-6;

/** @param places Where the first axis's numbers stand on the bell curve. */
export function curveOf(plane: Float32Array, places: Float32Array): Curve {
  const bins = Math.max(1, Math.min(MOST_BINS, Math.floor(plane.length / PER_BIN)));
  const binOf = Int32Array.from({ length: ENTRIES }, (_, entry) =>
    Math.min(bins - 1, Math.floor(shareBelow(entry / PER_DEVIATION - REACH) * bins)),
  );
  const count = new Float64Array(bins);
  const sum = new Float64Array(bins);
  const squares = new Float64Array(bins);
  for (let k = 0; k < plane.length; k++) {
    const bin = binOf[Math.round((places[k] + REACH) * PER_DEVIATION)];
    count[bin]++;
    sum[bin] += plane[k];
    squares[bin] += plane[k] ** 2;
  }
  fillEmpty(count, sum, squares);
  const mean = sum.map((value, bin) => value / count[bin]);
  const deviation = squares.map((value, bin) =>
    Math.max(LEAST_DEVIATION, Math.sqrt(Math.max(0, value / count[bin] - mean[bin] ** 2))),
  );
  return { mean: overEntries(mean), deviation: overEntries(deviation) };
}

/** An empty bin, where many numbers are alike, takes what the one before it holds, and the first ones what the first full one does. */
function fillEmpty(count: Float64Array, sum: Float64Array, squares: Float64Array): void {
  let from = Math.max(
    0,
    count.findIndex((value) => value > 0),
  );
  if (!(count[from] > 0)) count[from] = 1;
  for (let bin = 0; bin < count.length; bin++) {
    if (count[bin] > 0) from = bin;
    else [count[bin], sum[bin], squares[bin]] = [count[from], sum[from], squares[from]];
  }
}

/** Values at the middles of bins, straight between them, at each entry of a table and the last one twice. */
function overEntries(values: Float64Array): Float32Array {
  const last = values.length - 1;
  return Float32Array.from({ length: ENTRIES + 1 }, (_, entry) => {
    const place = shareBelow(Math.min(entry, ENTRIES - 1) / PER_DEVIATION - REACH) * values.length - 0.5;
    const at = Math.max(0, Math.min(last, place));
    const low = Math.min(Math.max(0, last - 1), Math.floor(at));
    return last === 0 ? values[0] : values[low] + (at - low) * (values[low + 1] - values[low]);
  });
}

/** What is left of a plane where the curve is taken off: how many deviations each number is off it. */
export function offCurve(
  plane: Float32Array,
  places: Float32Array,
  { mean, deviation }: Curve,
): Float32Array {
  return plane.map((value, k) => {
    const entry = (places[k] + REACH) * PER_DEVIATION;
    const low = Math.floor(entry);
    const t = entry - low;
    const middle = mean[low] + t * (mean[low + 1] - mean[low]);
    return (value - middle) / (deviation[low] + t * (deviation[low + 1] - deviation[low]));
  });
}
