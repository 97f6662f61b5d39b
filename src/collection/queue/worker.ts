import type { Job } from 'bullmq';
import { pause } from '../making/pause.ts';
import { RoomWait } from '../making/room-wait.ts';
import type { RunSettings } from '../making/run-settings.ts';
import { Turns } from '../making/turns.ts';
import type { Workshop } from '../making/workshop.ts';
import type { Item } from '../plan/item.ts';
import type { Plan } from '../plan/plan.ts';
import { itemOfJob, type JobData, shownJob } from './job.ts';
import type { QueuePulse } from './pulse.ts';
import type { PlanQueue } from './queue.ts';

/** Before looking again at what another run has in hand, ms. */
const LOOK_AGAIN_MS = 700;
/** For saying good-bye to Redis, ms. */
const LEAVE_MS = 3_000;
/** Before a call that met a lost connection is tried again, ms. */
const RETRY_MS = 1_000;
/** Jobs set aside that are named one by one; of a flood the rest is only counted. */
const NAMED = 20;
/** Kept in Redis of what was set aside. */
const KEPT_ASIDE = 1_000;

export interface Hiring {
  readonly queue: PlanQueue;
  readonly plan: Plan;
  readonly workshop: Workshop;
  readonly pulse: QueuePulse;
  readonly settings: Pick<RunSettings, 'roomSeconds' | 'signal'>;
  /** A worker that was not heard of for so long is gone, s. */
  readonly goneAfter: number;
  /** Aborted where no further job shall be begun, by whoever; what is under way ends by the settings' signal. */
  readonly ending: AbortController;
}

export interface HiredWorker {
  readonly isBusy: boolean;
  readonly setAside: number;
  /** Finishes what is under way, tells Redis so where it answers, and goes. */
  leave(): Promise<void>;
}

/** Begins to take jobs from the queue into the workshop. */
export function hire({ queue, plan, workshop, pulse, settings, goneAfter, ending }: Hiring): HiredWorker {
  const { Worker, UnrecoverableError, WaitingError } = queue.engine;
  const items = new Map(plan.items.map((item) => [item.address, item]));
  const turns = new Turns(workshop);
  const room = new RoomWait(workshop, ending.signal, settings.roomSeconds);
  const busy = new Set<Promise<unknown>>();
  const told = new WeakSet<Job<JobData>>();
  let setAside = 0;

  async function take(job: Job<JobData>, token?: string): Promise<void> {
    const item = itemOfJob(job, items);
    if (typeof item === 'string') {
      // Its end is not told of where the engine fails at the job that it takes next.
      told.add(job);
      tellAside(job.id, item);
      throw new UnrecoverableError(item);
    }
    const work = makeItem(item, { turns, workshop, room, ending });
    busy.add(work);
    const outcome = await work.finally(() => busy.delete(work));
    if (outcome === 'done') return;
    await job.moveToWait(token);
    throw new WaitingError();
  }

  function tellAside(id: string | undefined, reason: string): void {
    setAside++;
    if (setAside > NAMED) return;
    const more = setAside === NAMED ? '; further ones are only counted' : '';
    const words = `the job ${shownJob(id)} is none of ours and was set aside: ${reason}${more}`;
    workshop.say({ event: 'waiting', words });
  }

  async function onTrouble(error: Error): Promise<void> {
    if (isOfConnection(error)) return;
    const aside = await queue.setUnreadableAside().catch(() => []);
    for (const id of aside) tellAside(id, 'it cannot be read');
    if (aside.length === 0) pulse.note('take', error);
  }

  const goneAfterMs = Math.round(goneAfter * 1000);
  const worker = new Worker<JobData>(queue.name, take, {
    connection: queue.connection,
    concurrency: turns.count,
    lockDuration: goneAfterMs,
    stalledInterval: Math.round(goneAfterMs / 3),
    // A worker may be killed any number of times; what kills workers is found by its claim and failure.
    maxStalledCount: 1000,
    runRetryDelay: RETRY_MS,
    removeOnFail: { count: KEPT_ASIDE },
  });
  worker.on('error', (error) => void onTrouble(error));
  worker.on('failed', (job, error) => {
    if (!job || !told.has(job)) tellAside(job?.id, error.message);
  });
  worker.on('active', () => pulse.note('take'));

  return {
    get isBusy() {
      return busy.size > 0;
    },
    get setAside() {
      return setAside;
    },
    async leave() {
      // From now on it takes nothing; it is quiet once Redis knows what became of the rest.
      await worker.pause(true);
      while (busy.size > 0) await Promise.allSettled(busy);
      // Pausing without "true" would connect again afterwards, to a server that may be frozen.
      await inTime((worker as unknown as Quiet).whenCurrentJobsFinished(false));
      // Asked to close by itself while Redis is away the engine would wait for it.
      await inTime(worker.close(true));
    },
  };
}

/** What the engine keeps to itself. */
interface Quiet {
  whenCurrentJobsFinished(reconnect: boolean): Promise<void>;
}

interface Place {
  readonly turns: Turns;
  readonly workshop: Workshop;
  readonly room: RoomWait;
  readonly ending: AbortController;
}

/** @returns `left` where the work was stopped before it was made. */
async function makeItem(item: Item, { turns, workshop, room, ending }: Place): Promise<'done' | 'left'> {
  const { signal } = ending;
  let alone = false;
  while (!signal.aborted) {
    // Another item may have found the disk full already.
    const outcome = workshop.isFull ? 'left' : await turns.take(item, alone);
    if (outcome === 'done') {
      room.found();
      return 'done';
    }
    if (outcome === 'left' && !(workshop.isFull && (await room.wait('this worker waits')))) {
      // There was no room for long enough: this worker ends.
      if (workshop.isFull) ending.abort();
      return 'left';
    }
    if (outcome === 'alone') alone = true;
    if (outcome === 'theirs') await pause(LOOK_AGAIN_MS, signal);
  }
  return 'left';
}

/** @returns False where it took too long, or failed. */
async function inTime(call: Promise<unknown>): Promise<boolean> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<boolean>((resolve) => {
    timer = setTimeout(() => resolve(false), LEAVE_MS);
  });
  const done = call.then(
    () => true,
    () => false,
  );
  return Promise.race([done, late]).finally(() => clearTimeout(timer));
}

/** Those are noticed by the pulse. */
function isOfConnection({ message, code }: NodeJS.ErrnoException): boolean {
  return code !== undefined || /Connection is closed|ended|Socket|ECONN|EPIPE/i.test(message);
}
