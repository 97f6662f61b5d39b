import type { Bench } from './bench.ts';
import type { CheckName, Verdict } from './report.ts';

/** One promise of the contract and how it is tried. */
export interface Check {
  readonly name: CheckName;
  /** The promise, as a sentence about the effect. */
  readonly promise: string;
  /** Checks without which this one would say nothing: an effect that throws dice cannot be shown to repeat. */
  readonly needs: readonly CheckName[];
  /** @throws Failed where the promise is not kept. */
  run(bench: Bench): Promise<Verdict>;
}

/** What most checks need: that the effect runs, and depends on nothing but its arguments. */
export const GROUND: readonly CheckName[] = ['runs', 'finite', 'hidden', 'twice', 'state'];

export const PASSED: Verdict = { status: 'passed' };
