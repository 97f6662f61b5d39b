import type { Fault } from '../../fault.ts';
import { lookForItems } from '../disk/standing.ts';
import type { RunResult, RunSettings } from '../making/run-settings.ts';
import { Workshop } from '../making/workshop.ts';
import type { Plan } from '../plan/plan.ts';
import { QUEUE_SECONDS } from './attend.ts';
import { QueuePulse } from './pulse.ts';
import { PlanQueue } from './queue.ts';
import { placeOf, type QueuePlace, unreachable } from './redis.ts';
import { type Refusal, refusalOf } from './redis-refusal.ts';
import { untilAllIsThere } from './until-there.ts';
import { hire } from './worker.ts';

export interface WorkSettings extends RunSettings, QueuePlace {
  /** A worker that was not heard of for so long is gone, in s, and its jobs are given to others. */
  readonly goneAfter?: number;
  /** Wait for more once all is done, until it is stopped. */
  readonly stay?: boolean;
  /** How long to wait for a queue that is out of reach, in s; 60 where absent. */
  readonly queueSeconds?: number;
}

export interface WorkResult extends RunResult {
  /** Jobs in the queue that were none of ours, set aside by this worker. */
  readonly setAside: number;
  /** Why it ended before all was there, where the queue was out of reach for too long. */
  readonly lost?: Fault;
}

const GONE_AFTER_SECONDS = 15;

/**
 * Works on the queue of a plan until all of it is there or has failed, by whoever. The folder is the
 * truth, the queue only shares out the work: what a killed worker or a lost Redis leaves undone is
 * queued again, and a job that comes twice finds its picture there. A queue out of reach is waited for;
 * what is under way then is finished.
 *
 * @throws Fault where Redis cannot be reached at first, or the output folder cannot be written.
 */
export async function workOnQueue(plan: Plan, settings: WorkSettings): Promise<WorkResult> {
  const { url, stay = false, queueSeconds = QUEUE_SECONDS, goneAfter = GONE_AFTER_SECONDS } = settings;
  const queue = await PlanQueue.open(plan, settings);
  const workshop = new Workshop(plan, settings);
  const ending = new AbortController();
  const end = () => ending.abort();
  settings.signal?.addEventListener('abort', end);
  if (settings.signal?.aborted) end();
  let lost: Refusal | undefined;
  const pulse = new QueuePulse({
    ask: () => queue.feel(),
    seconds: queueSeconds,
    describe: (error) => refusalOf(error, placeOf(url).secret),
    say: (words) => workshop.say({ event: 'waiting', words }),
    onLost: (refusal) => {
      lost = refusal;
      end();
    },
  });
  try {
    await workshop.open();
    const { made, missing } = await lookForItems(plan, plan.items, settings.verify);
    workshop.begin(missing, made.size);
    const worker = hire({ queue, plan, workshop, pulse, settings, goneAfter, ending });
    try {
      await untilAllIsThere({ queue, pulse, worker, stay, goneAfter, signal: ending.signal });
    } finally {
      await worker.leave();
    }
    const left = (await queue.missing()).length;
    const why = lost && unreachable(url, lost, leftOver(left, queueSeconds));
    return { ...workshop.result(left), setAside: worker.setAside, lost: why };
  } finally {
    pulse.stop();
    settings.signal?.removeEventListener('abort', end);
    queue.close();
    await workshop.close();
  }
}

function leftOver(left: number, seconds: number): string {
  return `It was waited for, ${seconds} s; ${left} renders are left. Run the same command again to go on.`;
}
