import type { Band } from '../effect.ts';
import type { AnyLayer } from '../layer.ts';
import type { Failure } from './report.ts';
import type { Drawn, Surrounding } from './surrounding.ts';
import type { Trial } from './trial.ts';

/** What a copy is asked for: all trials prepared and painted in this order; what counts is the last. */
export interface CopyOrder {
  readonly trials: readonly Trial[];
  readonly view: Pick<Band, 'x' | 'y' | 'width' | 'height'>;
  /** Where nothing has to be moved, but the copy must not share even a thread with the first. */
  readonly isElsewhere?: boolean;
}

/** Plain data, so that a thread may answer with it. */
export interface CopyAnswer {
  /** The last trial's; absent where the effect refuses it, or fails. */
  readonly layer?: AnyLayer;
  readonly failure?: Failure;
  /** What the effect drew from, each once, while it was loaded and worked. */
  readonly drawn: readonly Drawn[];
  /** Timers still running when all was painted, by the names of what started them; absent where nobody looked. */
  readonly running?: readonly string[];
}

/** An effect loaded once more, with nothing of what was done before. It serves one order. */
export type RunCopy = (order: CopyOrder, elsewhere: readonly Surrounding[]) => Promise<CopyAnswer>;
