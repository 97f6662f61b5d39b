import { pause } from '../making/pause.ts';
import type { QueuePulse } from './pulse.ts';
import type { PlanQueue } from './queue.ts';

/** How often an idle worker looks whether all is done, ms. */
const LOOK_MS = 700;

export interface Watch {
  readonly queue: PlanQueue;
  readonly pulse: QueuePulse;
  /** Of this process. */
  readonly worker: { readonly isBusy: boolean };
  readonly stay: boolean;
  /** A worker that was not heard of for so long is gone, s. */
  readonly goneAfter: number;
  readonly signal: AbortSignal;
}

/** Waits until nothing of the plan is missing, and queues again what was lost; or until it is stopped. */
export async function untilAllIsThere(watch: Watch): Promise<void> {
  const { queue, pulse, worker, stay, goneAfter, signal } = watch;
  let busyAt = performance.now();
  while (!signal.aborted) {
    await pause(LOOK_MS, signal);
    if (worker.isBusy) busyAt = performance.now();
    // What stands in the queue for so long while this worker has nothing to do is held by nobody.
    const isStuck = performance.now() - busyAt > 2000 * goneAfter;
    try {
      const isThere = await orAborted(look(queue, pulse, isStuck), signal);
      if (isThere && !stay) return;
      pulse.note('fill');
    } catch (error) {
      pulse.note('fill', error);
    }
  }
}

/** @returns True where nothing is missing. */
async function look(queue: PlanQueue, pulse: QueuePulse, isStuck: boolean): Promise<boolean> {
  const { waiting, underWay } = await queue.counts();
  if (waiting === 0) pulse.note('take');
  if (waiting + underWay > 0 && !isStuck) return false;
  const missing = await queue.missing();
  if (missing.length > 0) await queue.add(missing);
  return missing.length === 0;
}

/** While Redis is away a call waits for it; a stop must not. */
async function orAborted<T>(call: Promise<T>, signal: AbortSignal): Promise<T | undefined> {
  if (signal.aborted) return undefined;
  let stop = () => {};
  const stopped = new Promise<undefined>((resolve) => {
    stop = () => resolve(undefined);
    signal.addEventListener('abort', stop, { once: true });
  });
  // What it still comes to after a stop is of no use to anybody.
  call.catch(() => {});
  return Promise.race([call, stopped]).finally(() => signal.removeEventListener('abort', stop));
}
