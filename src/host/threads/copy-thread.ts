import { Worker } from 'node:worker_threads';
import type { CopyAnswer, CopyOrder } from '../../effect/prove/copy.ts';
import { Failed } from '../../effect/prove/failed.ts';
import type { Surrounding } from '../../effect/prove/surroundings.ts';
import type { Trial } from '../../effect/prove/trial.ts';
import type { Stage } from '../../effect/runner.ts';

/** What a thread is started with that serves one copy of an effect. */
export interface CopyTask {
  readonly moduleUrl: string;
  readonly order: CopyOrder;
  readonly elsewhere: readonly Surrounding[];
}

export type CopyMessage =
  | { readonly kind: 'trying'; readonly trial: Trial; readonly stage: Stage }
  | { readonly kind: 'copied'; readonly answer: CopyAnswer }
  | { readonly kind: 'broken'; readonly message: string };

/**
 * Carries an order out in a thread of its own, which loads the effect for itself.
 *
 * @param url What the thread runs: it finds the task in its worker data.
 * @throws Failed where the thread ends without an answer.
 */
export function runInFreshThread(
  url: URL,
  task: CopyTask,
  onTrying: (trial: Trial, stage: Stage) => void,
): Promise<CopyAnswer> {
  const worker = new Worker(url, { workerData: task, stdout: true });
  worker.stdout.pipe(process.stderr, { end: false });
  let last: Trial = task.order.trials[0];
  return new Promise<CopyAnswer>((resolve, reject) => {
    const fail = (received: string) => reject(ended(last, received));
    worker
      .on('message', (message: CopyMessage) => {
        if (message.kind === 'trying') {
          last = message.trial;
          onTrying(message.trial, message.stage);
        } else if (message.kind === 'copied') resolve(message.answer);
        else fail(message.message);
      })
      .on('error', (error) => fail(String(error)))
      .on('exit', (code) => fail(`exit code ${code}`));
  }).finally(() => worker.terminate());
}

function ended(trial: Trial, received: string): Failed {
  return new Failed(trial, {
    expected: 'an answer of a copy that was loaded afresh',
    received: `the end of its thread (${received.replace(/\.$/, '')})`,
    remedy: 'An effect must load and work in every thread, wherever and whenever it is.',
  });
}
