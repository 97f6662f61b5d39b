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

/** By the work of the processor where that is known: a busy machine tries as much. Without a clock there is no limit. */
export function openBudget(
  { now, work, quick }: Pick<BenchOptions, 'now' | 'work' | 'quick'>,
  seconds: BudgetSeconds,
): Budget {
  const limit = quick ? seconds.quick : seconds.whole;
  const clock = work ?? now;
  if (!clock || limit === undefined) return { isOver: () => false };
  const end = clock() + 1000 * limit;
  return { isOver: () => clock() > end };
}
