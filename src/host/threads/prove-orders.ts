import type { BenchOptions } from '../../effect/prove/bench.ts';
import type { CheckName, Verdict } from '../../effect/prove/report.ts';
import type { Trial } from '../../effect/prove/trial.ts';
import type { Stage } from '../../effect/runner.ts';
import type { LeftBehind } from './left-behind.ts';

/** One check of one effect, as a thread is asked for it. */
export interface CheckOrder extends Pick<BenchOptions, 'quick' | 'presets'> {
  readonly moduleUrl: string;
  readonly check: CheckName;
}

/** What the thread says: what it is about to try, what went wrong later, and in the end how the check went. */
export type CheckAnswer =
  | { readonly kind: 'trying'; readonly trial: Trial; readonly stage: Stage }
  /** An error that no call was there to catch, of this check or of one before it. */
  | { readonly kind: 'left'; readonly left: LeftBehind }
  | { readonly kind: 'verdict'; readonly verdict: Verdict }
  /** Something that is no fault of the effect. */
  | { readonly kind: 'broken'; readonly message: string };

/** True for what the thread may say; the rest of the host can then rely on its types. */
export function isCheckAnswer(said: unknown): said is CheckAnswer {
  if (!isRecord(said)) return false;
  switch (said.kind) {
    case 'trying':
      return isRecord(said.trial) && typeof said.stage === 'string';
    case 'left':
      return isRecord(said.left) && typeof said.left.words === 'string';
    case 'verdict':
      return isRecord(said.verdict) && typeof said.verdict.status === 'string';
    case 'broken':
      return typeof said.message === 'string';
    default:
      return false;
  }
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}
