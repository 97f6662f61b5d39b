import { apart, type StripColours } from './strip-colours.ts';
import type { StripDifference } from './strip-difference.ts';

/** The tone that a cut steps by where it parts two cells: red, green and blue, as encoded, 0..1. */
export type StepAt = (cell: number) => readonly [number, number, number];

/** Cells around a cell that its difference is the median of: grain is no tone, nor is the rim of a motif half a motif. */
const MEDIAN_REACH = 2;
/** Cells around it that are looked at for a place without a difference: there an outline runs. */
const OUTLINE_REACH = 4;

/** A step of less, as encoded, is evened whatever the picture shows. */
const ALWAYS = 0.08;
/** A step is left where outlines are as steep as the larger of these shares of it, and evened below the lesser. */
const OUTLINE_SHARE = { low: 0.3, high: 0.6 };
/** Of all pairs of neighbours, so many are steeper than what counts as the steepness of outlines. */
const OUTLINES = 1 / 250;

/**
 * What has to be evened at a cut. Where it runs along an outline that one of the two sources has there, a
 * step is what should be seen: so of the differences around a place the least counts, as with the mixed gradients
 * of P. Perez, M. Gangnet, A. Blake, *Poisson image editing*, ACM Transactions on Graphics 22 (2003), section 3.
 * Colour does not run out of a motif then, and a wash, whose differences are slow, is evened whole. Nor does it run
 * where a motif is cut through after all: a step no steeper than the outlines that the picture draws stays.
 *
 * @param outline How steep these are: `outlineOf`.
 */
export function cutSteps(
  { across, along, levels, local }: StripDifference,
  isRound: boolean,
  outline: number,
): StepAt {
  const known = new Map<number, readonly [number, number, number]>();
  const medianAt = (i: number, j: number): readonly [number, number, number] => {
    const at = i + j * across;
    let median = known.get(at);
    if (!median) {
      median = medianAround(i, j);
      known.set(at, median);
    }
    return median;
  };
  const rowOf = (j: number) => (isRound ? (j + along) % along : Math.max(0, Math.min(along - 1, j)));
  const window = [0, 1, 2].map(() => new Float32Array((2 * MEDIAN_REACH + 1) ** 2));
  const medianAround = (i: number, j: number): readonly [number, number, number] => {
    let count = 0;
    for (let dj = -MEDIAN_REACH; dj <= MEDIAN_REACH; dj++) {
      const row = rowOf(j + dj) * across;
      const end = Math.min(across - 1, i + MEDIAN_REACH);
      for (let k = Math.max(0, i - MEDIAN_REACH); k <= end; k++, count++)
        for (let channel = 0; channel < 3; channel++) window[channel][count] = local[4 * (row + k) + channel];
    }
    const [red, green, blue] = window.map((values) => values.subarray(0, count).sort()[count >> 1]);
    return [red, green, blue];
  };
  return (cell) => {
    const i = cell % across;
    const j = Math.floor(cell / across);
    let least = medianAt(i, j);
    let size = sizeOf(least);
    for (let dj = -OUTLINE_REACH; dj <= OUTLINE_REACH; dj++)
      for (let k = Math.max(0, i - OUTLINE_REACH); k <= Math.min(across - 1, i + OUTLINE_REACH); k++) {
        const near = medianAt(k, rowOf(j + dj));
        if (sizeOf(near) >= size) continue;
        least = near;
        size = sizeOf(near);
      }
    const share = evenedShare(Math.sqrt(size), outline);
    return [
      share * least[0] + levels[4 * j],
      share * least[1] + levels[4 * j + 1],
      share * least[2] + levels[4 * j + 2],
    ];
  };
}

function evenedShare(step: number, outline: number): number {
  const { low, high } = OUTLINE_SHARE;
  const left = Math.min(1, Math.max(0, (outline / step - low) / (high - low)));
  const isLarge = Math.min(1, Math.max(0, step / ALWAYS - 1));
  return 1 - left * isLarge;
}

/** How steep the outlines of a strip are: by how much cells two apart differ, of the few that differ most. */
export function outlineOf({ across, along, values }: StripColours): number {
  const step = Math.max(1, Math.floor((across * along) / MOST_PAIRS));
  const steps: number[] = [];
  for (let cell = 0; cell < across * along - 2 * across; cell += step) {
    if (cell % across >= across - 2) continue;
    steps.push(apart(values, cell, cell + 2), apart(values, cell, cell + 2 * across));
  }
  const sorted = Float64Array.from(steps).sort();
  return sorted[Math.floor(sorted.length * (1 - OUTLINES))] ?? 0;
}

/** Pairs that are looked at, each way. */
const MOST_PAIRS = 40_000;

function sizeOf([red, green, blue]: readonly [number, number, number]): number {
  return red * red + green * green + blue * blue;
}
