import type { CopyAnswer, RunCopy } from '../../effect/prove/copy.ts';
import { Failed } from '../../effect/prove/failed.ts';
import type { Trial } from '../../effect/prove/trial.ts';
import type { Stage } from '../../effect/runner.ts';
import { type CopyMessage, type CopyTask, isCopyMessage } from './copy-orders.ts';
import { KeptThread } from './kept-thread.ts';
import { V8_HEAP_MEGABYTES } from './limits.ts';

/** What a thread is born with that serves copies. */
export const COPY_GIFT = { isForCopies: true };

/**
 * Copies of one effect, each loaded for itself: the first of a fresh thread's own modules too, those
 * that have worked before and those elsewhere in another thread. Both live as long as whoever hires them.
 *
 * @param url What the threads run.
 */
export function copiesInThreads(
  url: URL,
  moduleUrl: string,
  onTrying: (trial: Trial, stage: Stage) => void,
): RunCopy {
  const [fresh, worn] = [new CopyThread(url, onTrying), new CopyThread(url, onTrying)];
  return (order, elsewhere) => {
    const isFresh = order.trials.length === 1 && elsewhere.length === 0 && !order.isElsewhere;
    return (isFresh ? fresh : worn).run({ moduleUrl, order, elsewhere });
  };
}

class CopyThread {
  private readonly url: URL;
  private readonly onTrying: (trial: Trial, stage: Stage) => void;
  private thread?: KeptThread<CopyTask, CopyMessage>;
  private hear?: (said: CopyMessage | { readonly kind: 'lost'; readonly reason: string }) => void;

  constructor(url: URL, onTrying: (trial: Trial, stage: Stage) => void) {
    this.url = url;
    this.onTrying = onTrying;
  }

  /** @throws Failed where the thread ends without an answer. */
  run(task: CopyTask): Promise<CopyAnswer> {
    let last = task.order.trials[0];
    return new Promise<CopyAnswer>((resolve, reject) => {
      this.hear = (said) => {
        if (said.kind === 'trying') {
          last = said.trial;
          this.onTrying(said.trial, said.stage);
        } else if (said.kind === 'copied') resolve(said.answer);
        else reject(ended(last, said.kind === 'lost' ? said.reason : said.message));
      };
      this.thread ??= this.hire();
      this.thread.give(task);
    });
  }

  private hire(): KeptThread<CopyTask, CopyMessage> {
    const keeper = {
      isAnswer: isCopyMessage,
      isLast: ({ kind }: CopyMessage) => kind !== 'trying',
      hear: (said: CopyMessage) => this.hear?.(said),
      lose: ({ reason }: { reason: string }) => {
        this.thread = undefined;
        this.hear?.({ kind: 'lost', reason });
      },
    };
    const limits = { maxOldGenerationSizeMb: V8_HEAP_MEGABYTES };
    return new KeptThread(this.url, keeper, { gift: COPY_GIFT, limits });
  }
}

function ended(trial: Trial, received: string): Failed {
  return new Failed(trial, {
    expected: 'an answer of a copy that was loaded afresh',
    received: `the end of its thread (${received.replace(/\.$/, '')})`,
    remedy: 'An effect must load and work in every thread, wherever and whenever it is.',
  });
}
