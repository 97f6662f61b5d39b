import { parentPort } from 'node:worker_threads';
import { carryOutCopy } from '../../effect/prove/copies.ts';
import type { CopyMessage, CopyTask } from './copy-thread.ts';
import { watchOutside } from './outside.ts';
import { pinProcess } from './pin-process.ts';

/** What a thread does that was started for one copy of an effect. */
export async function serveCopy({ moduleUrl, order, elsewhere }: CopyTask): Promise<void> {
  const port = parentPort!;
  const say = (message: CopyMessage) => port.postMessage(message);
  const outside = watchOutside(elsewhere.includes('machine'));
  try {
    const answer = await carryOutCopy(async () => (await import(moduleUrl)).default, order, elsewhere, {
      pinMore: pinProcess,
      onTrying: (trial, stage) => say({ kind: 'trying', trial, stage }),
    });
    say({ kind: 'copied', answer: { ...answer, drawn: [...answer.drawn, ...outside] } });
  } catch (error) {
    say({
      kind: 'broken',
      message: error instanceof Error ? `${error.name}: ${error.message}` : String(error),
    });
  }
}
