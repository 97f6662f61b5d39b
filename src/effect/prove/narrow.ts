import type { Bench, Sample } from './bench.ts';
import { openBudget } from './budget.ts';
import { withLargest, withLargestAlone } from './sizes.ts';
import { HOME, type Trial } from './trial.ts';
import { overTrials, thinned } from './vary.ts';

/** mm: narrower than much that is long, which then lies over itself more than once. */
const SIDES = [
  [20.3, 200.7],
  [200.7, 20.3],
  [9.1, 121],
  [121, 9.1],
] as const;
const LAYOUTS = ['straight', 'drop:1/2', 'brick:1/3'];
const SECONDS = { quick: 0.3, whole: 8 };
/** Sizes that are at their greatest alone. */
const MOST_ALONE = 6;

/**
 * Tries narrow boxes with all sizes at their greatest, at once and each by itself.
 *
 * @param tryRepeat Holds a sample to its repeat.
 * @throws Failed
 */
export async function tryNarrow(bench: Bench, tryRepeat: (sample: Sample) => void): Promise<void> {
  const budget = openBudget(bench, SECONDS);
  // It is refused nowhere that is not refused here.
  await overTrials(bench, [HOME, ...narrowTrials(bench)], tryRepeat, () => budget.isOver());
}

function narrowTrials({ effect, quick }: Bench): Trial[] {
  const base: Trial = { ...HOME, pixelsPerMm: 2, quality: 'sketch' };
  const alone = thinned(withLargestAlone(effect, base), quick ? 1 : MOST_ALONE);
  return [withLargest(effect, base), base, ...alone].flatMap((trial) =>
    SIDES.map(([width, height], k) => ({ ...trial, width, height, layout: LAYOUTS[k % LAYOUTS.length] })),
  );
}
