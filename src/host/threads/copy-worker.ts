import { threadId } from 'node:worker_threads';
import { carryOutCopy } from '../../effect/prove/copies.ts';
import type { CopyMessage, CopyTask } from './copy-orders.ts';
import { pinProcess } from './pin-process.ts';
import { watchOutside } from './watch-outside.ts';
import { watchTimers } from './watch-timers.ts';
import type { HostLine } from './worker-gift.ts';

let count = 0;

/** What a thread does that was started for copies of an effect. Nothing is locked here: everything around the effect is moved. */
export function serveCopies(line: HostLine<CopyTask, CopyMessage>): void {
  line.hear(async ({ moduleUrl, order, elsewhere }) => {
    const timers = watchTimers();
    try {
      // By a name of its own a module is loaded anew; no two copies anywhere have the same.
      const load = async () => (await import(`${moduleUrl}?copy=${threadId}-${++count}`)).default;
      const answer = await carryOutCopy(load, order, elsewhere, {
        pinMore: (names, note) => [...pinProcess(names, note), ...watchOutside(names, note)],
        onTrying: (trial, stage) => line.say({ kind: 'trying', trial, stage }),
      });
      line.say({ kind: 'copied', answer: { ...answer, running: timers.running() } });
    } catch (error) {
      const message = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
      line.say({ kind: 'broken', message });
    } finally {
      timers.restore();
    }
  });
}
