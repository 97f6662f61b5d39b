import type { Job, Worker } from 'bullmq';
import { lookForItems } from '../disk/standing.ts';
import type { Item } from '../plan/item.ts';
import type { Plan } from '../plan/plan.ts';
import { pause } from '../work/pause.ts';
import type { RunResult, RunSettings } from '../work/run-settings.ts';
import { Turns } from '../work/turns.ts';
import { Workshop } from '../work/workshop.ts';
import { type JobData, PlanQueue } from './queue.ts';
import type { QueuePlace } from './redis.ts';

export interface WorkSettings extends RunSettings, QueuePlace {
  /** A worker that was not heard of for so long is gone, in s, and its jobs are given to others. */
  readonly goneAfter?: number;
  /** Wait for more once all is done, until it is stopped. */
  readonly stay?: boolean;
}

const GONE_AFTER_SECONDS = 15;
/** How often an idle worker looks whether all is done, ms. */
const LOOK_MS = 700;
/** Before the disk is tried again. */
const FULL_WAIT_MS = 5_000;

/**
 * Works on the queue of a plan until all of it is there or has failed, by whoever. The folder is the
 * truth, the queue only shares out the work: what a killed worker or a lost Redis leaves undone is
 * queued again, and a job that comes twice finds its picture there.
 *
 * @throws Fault where Redis cannot be reached at first, or the output folder cannot be written.
 */
export async function workOnQueue(plan: Plan, settings: WorkSettings): Promise<RunResult> {
  const queue = await PlanQueue.open(plan, settings);
  const workshop = new Workshop(plan, settings);
  let worker: Worker<JobData> | undefined;
  try {
    await workshop.open();
    const { made, missing } = await lookForItems(plan, plan.items, settings.verify);
    workshop.begin(missing, made.size);
    worker = hire(queue, plan, workshop, settings);
    await untilDone(queue, settings, workshop);
    const failed = workshop.result().failed.length;
    return workshop.result(Math.max(0, (await lookForItems(plan, missing)).missing.length - failed));
  } finally {
    // Jobs that were given up have been handed back by now.
    await worker?.close();
    await queue.close();
    await workshop.close();
  }
}

function hire(queue: PlanQueue, plan: Plan, workshop: Workshop, settings: WorkSettings): Worker<JobData> {
  const { Worker, UnrecoverableError, WaitingError } = queue.engine;
  const items = new Map(plan.items.map((item) => [item.address, item]));
  const turns = new Turns(workshop);
  const goneAfterMs = Math.round((settings.goneAfter ?? GONE_AFTER_SECONDS) * 1000);
  const handBack = async (job: Job<JobData>, token?: string): Promise<never> => {
    await job.moveToWait(token);
    throw new WaitingError();
  };
  const worker = new Worker<JobData>(
    queue.name,
    async (job, token) => {
      const item = items.get(job.data.address);
      if (!item) throw new UnrecoverableError(`${job.data.name} is not in this worker's copy of the plan`);
      if (workshop.isStopped) return handBack(job, token);
      const outcome = await makeItem(item, turns, workshop, settings.signal);
      if (outcome === 'left') return handBack(job, token);
    },
    {
      connection: queue.connection,
      concurrency: turns.count,
      lockDuration: goneAfterMs,
      stalledInterval: Math.round(goneAfterMs / 3),
      // A worker may be killed any number of times; what kills workers is found by its claim and failure.
      maxStalledCount: 1000,
    },
  );
  let isAway = false;
  worker.on('error', (error) => {
    if (!isAway)
      workshop.say({ event: 'waiting', words: `the queue does not work just now: ${error.message}` });
    isAway = true;
  });
  worker.on('active', () => {
    isAway = false;
  });
  return worker;
}

async function makeItem(
  item: Item,
  turns: Turns,
  workshop: Workshop,
  signal?: AbortSignal,
): Promise<'done' | 'left'> {
  let alone = false;
  for (;;) {
    const outcome = await turns.take(item, alone);
    if (outcome === 'done') return 'done';
    if (outcome === 'left') {
      if (!workshop.isFull || signal?.aborted) return 'left';
      workshop.say({ event: 'waiting', words: 'the disk is full; this worker waits for room' });
      await pause(FULL_WAIT_MS, signal);
      workshop.resume();
    }
    if (outcome === 'alone') alone = true;
    if (outcome === 'theirs') await pause(LOOK_MS, signal);
    if (signal?.aborted) return 'left';
  }
}

async function untilDone(
  queue: PlanQueue,
  { signal, stay }: WorkSettings,
  workshop: Workshop,
): Promise<void> {
  while (!signal?.aborted) {
    await pause(LOOK_MS, signal);
    if (signal?.aborted || workshop.isFull) continue;
    const counts = await orAborted(queue.counts(), signal);
    if (!counts || counts.waiting + counts.underWay > 0) continue;
    const missing = await queue.missing();
    if (missing.length > 0) await orAborted(queue.add(missing), signal);
    else if (!stay) return;
  }
}

/** While Redis is away a call waits for it; a stop must not. */
function orAborted<T>(call: Promise<T>, signal?: AbortSignal): Promise<T | undefined> {
  if (!signal) return call;
  return new Promise((resolve, reject) => {
    const stop = () => resolve(undefined);
    signal.addEventListener('abort', stop, { once: true });
    call.then(resolve, reject).finally(() => signal.removeEventListener('abort', stop));
  });
}
