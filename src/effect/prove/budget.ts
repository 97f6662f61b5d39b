import type { BenchOptions } from './bench.ts';

/** The time that part of a quick proof may take; what it does not come to is left to a whole one, and counted. */
export interface Budget {
  isOver(): boolean;
}

/** @param seconds From now on. A whole proof has no such limit, nor has one without a clock. */
export function openBudget({ now, quick }: Pick<BenchOptions, 'now' | 'quick'>, seconds: number): Budget {
  if (!now || !quick) return { isOver: () => false };
  const end = now() + 1000 * seconds;
  return { isOver: () => now() > end };
}
