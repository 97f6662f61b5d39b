import { greatestCommonDivisor } from '../repeat/layout.ts';
import type { Strip } from './strip.ts';

/** The two sides of one line. */
export interface Sides {
  readonly before: Strip;
  readonly after: Strip;
}

/**
 * Weights that foretell, from the pixels on one side of a line, the pixel just beyond it: learnt from
 * the inside of the picture itself. In smooth places this is straight extrapolation; in noise, a
 * mean; in a fine weave, its rhythm.
 */
export type Weights = Float64Array;

/** Taps looked back at; and the neighbours, up and down the line, of the first two. */
const TAPS = 4;
const NEIGHBOURS = 2;
const FEATURES = TAPS - 1 + NEIGHBOURS;
const MOST_EXAMPLES = 12_000;
/** Against a wild fit where the inside is flat: in squared L*, per example, and as a share of the spread. */
const RIDGE = 0.05;
const RIDGE_SHARE = 1e-3;

/** Least squares over lines inside, both ways across each. */
export function learn(lines: readonly Sides[], channels: readonly number[]): Weights {
  const sums = {
    normal: new Float64Array(FEATURES * FEATURES),
    right: new Float64Array(FEATURES),
    features: new Float64Array(FEATURES),
  };
  const { normal, right } = sums;
  const { count } = lines[0].before;
  const all = lines.length * channels.length * count;
  const pace = paceThrough(all, count);
  let examples = 0;
  for (let example = 0; example < all; example += pace) {
    const { before, after } = lines[Math.floor(example / count) % lines.length];
    const channel = channels[Math.floor(example / (count * lines.length))];
    const place = example % count;
    addExample(before, after, channel, place, sums);
    addExample(after, before, channel, place, sums);
    examples += 2;
  }
  let spread = 0;
  for (let k = 0; k < FEATURES; k++) spread += normal[k * FEATURES + k] / FEATURES;
  for (let k = 0; k < FEATURES; k++) normal[k * FEATURES + k] += RIDGE * examples + RIDGE_SHARE * spread;
  return solve(normal, right);
}

/** The sums of least squares, and room for the features of one example. */
interface Normal {
  readonly normal: Float64Array;
  readonly right: Float64Array;
  readonly features: Float64Array;
}

function addExample(
  from: Strip,
  to: Strip,
  channel: number,
  place: number,
  { normal, right, features }: Normal,
): void {
  const near = from.channels[channel][place * from.taps];
  describe(from, channel, place, features);
  accumulate(normal, right, features, to.channels[channel][place * to.taps] - near);
}

/** Every so many examples, and never always the same place of a line. */
function paceThrough(all: number, count: number): number {
  let pace = Math.max(1, Math.floor(all / MOST_EXAMPLES));
  while (greatestCommonDivisor(pace, count) > 1) pace++;
  return pace;
}

/**
 * What each pixel just beyond the line is over what was foretold.
 *
 * @param surprise Receives `count` differences.
 */
export function surprises(
  from: Float32Array,
  beyond: Float32Array,
  count: number,
  taps: number,
  weights: Weights,
  surprise: Float32Array,
): void {
  const [w1, w2, w3, v0, v1] = weights;
  const [second, third, fourth] = [Math.min(1, taps - 1), Math.min(2, taps - 1), Math.min(3, taps - 1)];
  for (let place = 0; place < count; place++) {
    const at = place * taps;
    const up = place > 0 ? at - taps : at;
    const down = place < count - 1 ? at + taps : at;
    const near = from[at];
    const foretold =
      near +
      w1 * (from[at + second] - near) +
      w2 * (from[at + third] - near) +
      w3 * (from[at + fourth] - near) +
      v0 * (from[up] + from[down] - 2 * near) +
      v1 * (from[up + second] + from[down + second] - 2 * near);
    surprise[place] = beyond[at] - foretold;
  }
}

function describe(
  { channels, taps, count }: Strip,
  channel: number,
  place: number,
  features: Float64Array,
): void {
  const samples = channels[channel];
  const at = place * taps;
  const up = place > 0 ? at - taps : at;
  const down = place < count - 1 ? at + taps : at;
  const near = samples[at];
  for (let tap = 1; tap < TAPS; tap++) features[tap - 1] = samples[at + Math.min(tap, taps - 1)] - near;
  for (let tap = 0; tap < NEIGHBOURS; tap++) {
    const deep = Math.min(tap, taps - 1);
    features[TAPS - 1 + tap] = samples[up + deep] + samples[down + deep] - 2 * near;
  }
}

function accumulate(normal: Float64Array, right: Float64Array, features: Float64Array, target: number): void {
  for (let i = 0; i < FEATURES; i++) {
    right[i] += features[i] * target;
    for (let j = 0; j <= i; j++) normal[i * FEATURES + j] += features[i] * features[j];
  }
}

/** Cholesky: the matrix (its lower half) is positive definite by the ridge. */
function solve(matrix: Float64Array, right: Float64Array): Float64Array {
  const n = FEATURES;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * n + j];
      for (let k = 0; k < j; k++) sum -= matrix[i * n + k] * matrix[j * n + k];
      matrix[i * n + j] = i === j ? Math.sqrt(Math.max(sum, 1e-12)) : sum / matrix[j * n + j];
    }
  }
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) right[i] -= matrix[i * n + k] * right[k];
    right[i] /= matrix[i * n + i];
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) right[i] -= matrix[k * n + i] * right[k];
    right[i] /= matrix[i * n + i];
  }
  return right;
}
