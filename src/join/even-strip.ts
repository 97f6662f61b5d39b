import type { StepAt } from './cut-steps.ts';
import { type StripEnds, StripPoisson } from './strip-poisson.ts';

/** What is evened: where the strip changes from one source to another, and what they differ by there. */
export interface Evening {
  readonly across: number;
  readonly along: number;
  readonly ends: StripEnds;
  /** Of each cell, which source it comes from. */
  readonly sides: Uint8Array;
  /** What the source of side 0 has more than that of side 1, at a cell beside the cut. */
  readonly stepAt: StepAt;
  /** True where the far long side is free: the strip's outer edge, with nothing beyond it yet. */
  readonly isFree?: boolean;
}

/**
 * What to add to each cell so that tone goes on over a cut, in red, green and blue: three planes. Nothing
 * at the long sides, so that what lies beyond stays as it is, and nothing at all where the sources do not
 * differ at the cut.
 *
 * What changes slowly along the cut, as the light of a scan does, fades from the one source's tone to the other's
 * over the whole strip, with no crease at its sides (P. J. Burt, E. H. Adelson, *A multiresolution spline with
 * application to image mosaics*, ACM Transactions on Graphics 2 (1983): slow differences are blended over wide zones).
 * The rest is evened in the gradient domain (P. Perez, M. Gangnet, A. Blake, *Poisson image editing*, ACM
 * Transactions on Graphics 22 (2003)): the slope that is wished for is each source's own, and over the cut that of
 * either, without the step (`cutSteps`).
 */
export function evenStrip(evening: Evening): Float32Array[] {
  const { across, along, ends, isFree } = evening;
  const pairs = pairsOf(evening);
  const slow = slowSteps(evening, pairs);
  const sums = sumsOf(evening, pairs, slow);
  // A free side is the middle of a strip with its mirror image.
  const solver = new StripPoisson(isFree ? 2 * across : across, along, ends);
  return sums.map((plane, channel) => {
    if (plane.every((sum) => sum === 0)) return faded(evening, slow[channel], new Float64Array(plane.length));
    if (!isFree) {
      solver.solve(plane);
      return faded(evening, slow[channel], plane);
    }
    const both = mirrored(plane, across);
    solver.solve(both);
    return faded(evening, slow[channel], firstHalves(both, across));
  });
}

/** Neighbours that the cut parts: of side 0 and of side 1 by turns. */
function pairsOf({ across, along, ends, sides }: Evening): number[] {
  const pairs: number[] = [];
  const part = (one: number, other: number) => {
    if (sides[one] !== sides[other])
      pairs.push(sides[one] === 0 ? one : other, sides[one] === 0 ? other : one);
  };
  for (let j = 0, cell = 0; j < along; j++) {
    const above = j > 0 ? -across : ends === 'cyclic' ? across * (along - 1) : 0;
    for (let i = 0; i < across; i++, cell++) {
      if (i > 0) part(cell - 1, cell);
      if (above !== 0) part(cell + above, cell);
    }
  }
  return pairs;
}

/** Of each row and channel the step at the cut, as it is over about half the strip's width along. */
function slowSteps({ across, along, ends, stepAt }: Evening, pairs: readonly number[]): Float64Array[] {
  const counts = new Float64Array(along);
  const sums = [0, 1, 2].map(() => new Float64Array(along));
  for (const cell of pairs) {
    const row = Math.floor(cell / across);
    counts[row]++;
    const step = stepAt(cell);
    for (let channel = 0; channel < 3; channel++) sums[channel][row] += step[channel];
  }
  const reach = Math.max(1, Math.min(Math.round(across / SLOW), (along - 1) >> 1));
  return sums.map((sum) => {
    let row = sum.map((value, j) => value / counts[j]);
    for (let pass = 0; pass < 3; pass++) row = runningMean(row, reach, ends);
    return row;
  });
}

/** Running means of a strip's width over this to either side, three times. */
const SLOW = 4;

function runningMean(
  row: Float64Array<ArrayBuffer>,
  reach: number,
  ends: StripEnds,
): Float64Array<ArrayBuffer> {
  const { length } = row;
  const at = (j: number) =>
    row[ends === 'cyclic' ? (j + length) % length : Math.max(0, Math.min(length - 1, j))];
  const means = new Float64Array(length);
  let sum = 0;
  for (let j = -reach; j <= reach; j++) sum += at(j);
  for (let j = 0; j < length; j++) {
    means[j] = sum / (2 * reach + 1);
    sum += at(j + reach + 1) - at(j - reach);
  }
  return means;
}

/** Of each cell what it shall lie above its neighbours, all told: one plane for each channel. */
function sumsOf(
  { across, along, stepAt }: Evening,
  pairs: readonly number[],
  slow: readonly Float64Array[],
): Float64Array[] {
  const sums = [0, 1, 2].map(() => new Float64Array(across * along));
  for (let k = 0; k < pairs.length; k += 2) {
    const [before, beyond] = [pairs[k], pairs[k + 1]];
    const [one, other] = [stepAt(before), stepAt(beyond)];
    const [row, next] = [Math.floor(before / across), Math.floor(beyond / across)];
    for (let channel = 0; channel < 3; channel++) {
      const rest = (one[channel] - slow[channel][row] + other[channel] - slow[channel][next]) / 2;
      sums[channel][before] -= rest;
      sums[channel][beyond] += rest;
    }
  }
  return sums;
}

/** Adds to the rest what fades: each source keeps its tone at its own side, a free strip all of it before the cut. */
function faded({ across, sides, isFree }: Evening, slow: Float64Array, rest: Float64Array): Float32Array {
  const shares = Float64Array.from({ length: across }, (_, i) =>
    isFree ? 0 : smooth((i + 1) / (across + 1)),
  );
  const added = new Float32Array(rest.length);
  for (let cell = 0, row = 0; cell < rest.length; row++)
    for (let i = 0; i < across; i++, cell++)
      added[cell] = rest[cell] + slow[row] * (sides[cell] === 0 ? -shares[i] : 1 - shares[i]);
  return added;
}

/** From 0 to 1 with neither slope nor bend at its ends. */
function smooth(t: number): number {
  return t * t * t * (t * (6 * t - 15) + 10);
}

function mirrored(sums: Float64Array, across: number): Float64Array {
  const both = new Float64Array(2 * sums.length);
  for (let at = 0; at < sums.length; at++) {
    const i = at % across;
    const row = 2 * (at - i);
    both[row + i] = sums[at];
    both[row + 2 * across - 1 - i] = sums[at];
  }
  return both;
}

function firstHalves(both: Float64Array, across: number): Float64Array {
  const halves = new Float64Array(both.length / 2);
  for (let at = 0; at < halves.length; at += across) halves.set(both.subarray(2 * at, 2 * at + across), at);
  return halves;
}
