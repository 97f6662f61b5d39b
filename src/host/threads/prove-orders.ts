import type { BenchOptions } from '../../effect/prove/bench.ts';
import type { CheckName, Verdict } from '../../effect/prove/report.ts';
import type { Trial } from '../../effect/prove/trial.ts';
import type { Stage } from '../../effect/runner.ts';

/** One check of one effect, as a thread is asked for it. */
export interface CheckOrder extends Pick<BenchOptions, 'quick' | 'presets'> {
  readonly moduleUrl: string;
  readonly check: CheckName;
}

/** What the thread says: what it is about to try, and in the end how the check went. */
export type CheckAnswer =
  | { readonly kind: 'trying'; readonly trial: Trial; readonly stage: Stage }
  | { readonly kind: 'verdict'; readonly verdict: Verdict }
  /** Something that is no fault of the effect. */
  | { readonly kind: 'broken'; readonly message: string };
