import type { Strip } from './canvas.ts';
import { cutCosts } from './cut-costs.ts';
import { shortestCut } from './shortest-cut.ts';
import { coarser, coloursOf, columnsOf, type StripColours } from './strip-colours.ts';
import { stripDifference } from './strip-difference.ts';

/** Two strips that may lie over one another: the last columns of the one over the first of the other. */
export interface Ends {
  readonly last: Strip;
  readonly first: Strip;
}

/** Cells of the strips that a search looks at, about. */
const FINEST_CELLS = 150_000;
/** Cells of the widest overlap, in the first look. */
const COARSE_WIDTH = 24;
/** So many of the first look are looked at more closely. */
const FINALISTS = 3;

/**
 * How far two ends had best lie over one another: where the cheapest cut costs least, so that stripes meet
 * stripes. Sought on coarse cells first, then on finer ones around the best.
 *
 * @param widths Overlaps that are allowed, px, rising.
 */
export function bestOverlap({ last, first }: Ends, widths: readonly number[]): number {
  const most = widths.at(-1)!;
  if (widths.length === 1) return most;
  const [lastColours, firstColours] = [coloursOf(last), coloursOf(first)];
  let factor = Math.max(1, Math.floor(most / COARSE_WIDTH));
  const finest = Math.max(1, Math.ceil(Math.sqrt((last.across * last.along) / FINEST_CELLS)));
  let candidates = [...widths];
  for (;;) {
    const looked = byCost(candidates, factor, lastColours, firstColours);
    if (factor <= finest) return looked[0].width;
    const kept = looked.slice(0, FINALISTS).map(({ width }) => width);
    factor = Math.max(finest, Math.floor(factor / 2));
    candidates = widths.filter((width) => kept.some((one) => Math.abs(one - width) <= 2 * factor));
  }
}

function byCost(
  widths: readonly number[],
  factor: number,
  last: StripColours,
  first: StripColours,
): { width: number; cost: number }[] {
  const cells = [...new Map(widths.map((width) => [Math.round(width / factor), width])).entries()];
  // Cells of the last columns are counted from their end, where the overlap ends.
  const spare = last.across % factor;
  const before = coarser(columnsOf(last, spare, last.across - spare), factor);
  const after = coarser(first, factor);
  return cells
    .filter(([count]) => count >= 4 && count <= before.across && count <= after.across)
    .map(([count, width]) => ({
      width,
      // In half the room the same step is twice as steep when it is evened.
      cost:
        overlapCost(columnsOf(before, before.across - count, count), columnsOf(after, 0, count)) /
        Math.sqrt(count),
    }))
    .sort((a, b) => a.cost - b.cost);
}

/**
 * What the cheapest cut costs that may end anywhere; one that has to come round to its beginning costs nearly
 * as little.
 */
export function overlapCost(a: StripColours, b: StripColours): number {
  return shortestCut(cutCosts(a, b, stripDifference(a, b).local), 'open').cost;
}
