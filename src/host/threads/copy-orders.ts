import type { CopyAnswer, CopyOrder } from '../../effect/prove/copy.ts';
import type { Surrounding } from '../../effect/prove/surrounding.ts';
import type { Trial } from '../../effect/prove/trial.ts';
import type { Stage } from '../../effect/runner.ts';

/** One copy of an effect, as a thread is asked for it. */
export interface CopyTask {
  readonly moduleUrl: string;
  readonly order: CopyOrder;
  readonly elsewhere: readonly Surrounding[];
}

/** What the thread says: what it is about to try, and in the end what was painted. */
export type CopyMessage =
  | { readonly kind: 'trying'; readonly trial: Trial; readonly stage: Stage }
  | { readonly kind: 'copied'; readonly answer: CopyAnswer }
  /** Something that the effect threw while it was loaded, or that is no fault of the effect. */
  | { readonly kind: 'broken'; readonly message: string };

const KINDS = ['trying', 'copied', 'broken'];

/** True for what the thread may say. */
export function isCopyMessage(said: unknown): said is CopyMessage {
  return typeof said === 'object' && said !== null && KINDS.includes((said as CopyMessage).kind);
}
