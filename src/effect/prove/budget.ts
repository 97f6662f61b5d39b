import type { BenchOptions } from './bench.ts';

/** The time that part of a proof may take; what it does not come to is left, and counted. */
export interface Budget {
  isOver(): boolean;
}

/** Seconds from now on, by the kind of proof; a whole one may have no limit. */
export interface BudgetSeconds {
  readonly quick: number;
  readonly whole?: number;
}

/** Without a clock there is no limit. */
export function openBudget(
  { now, quick }: Pick<BenchOptions, 'now' | 'quick'>,
  seconds: BudgetSeconds,
): Budget {
  const limit = quick ? seconds.quick : seconds.whole;
  if (!now || limit === undefined) return { isOver: () => false };
  const end = now() + 1000 * limit;
  return { isOver: () => now() > end };
}
