import type { Queue } from 'bullmq';
import { readFailure } from '../disk/failures.ts';
import { sha256 } from '../disk/hash.ts';
import { lookForItems } from '../disk/standing.ts';
import type { Item } from '../plan/item.ts';
import type { Plan } from '../plan/plan.ts';
import { mapSome } from '../work/each.ts';
import { type Engine, openEngine, type QueuePlace } from './redis.ts';

/** What a job says: which item it is of. All else each worker finds in its own copy of the plan. */
export interface JobData {
  readonly address: string;
  readonly name: string;
}

/** How many renders of a plan stand where. */
export interface QueueCounts {
  readonly waiting: number;
  readonly underWay: number;
  readonly failed: number;
}

/** Calls to Redis that are under way at once. */
const AT_ONCE = 32;

/**
 * The queue of a plan. Its name follows from all addresses, so that workers whose tiles, effects or
 * versions differ do not take each other's work; jobs are named by their address, so that nothing is
 * queued twice.
 */
export class PlanQueue {
  readonly engine: Engine;
  readonly connection: { readonly url: string; readonly maxRetriesPerRequest: null };
  readonly name: string;
  readonly #plan: Plan;
  readonly #queue: Queue<JobData>;

  private constructor(plan: Plan, engine: Engine, { url }: QueuePlace) {
    this.#plan = plan;
    this.engine = engine;
    this.connection = { url, maxRetriesPerRequest: null };
    const addresses = plan.items.map(({ address }) => address).sort();
    this.name = `tenter-${sha256(addresses.join('\n')).slice(0, 16)}`;
    this.#queue = new engine.Queue(this.name, { connection: this.connection });
    // While Redis is away calls wait for it; whoever waits is told by the worker.
    this.#queue.on('error', () => {});
  }

  /** @throws Fault where Redis or the engine cannot be had. */
  static async open(plan: Plan, place: QueuePlace): Promise<PlanQueue> {
    return new PlanQueue(plan, await openEngine(place), place);
  }

  /**
   * Queues every item of these that is not there, once. One that failed before is queued again.
   *
   * @returns How many were queued now.
   */
  async add(items: readonly Item[]): Promise<number> {
    const { missing } = await lookForItems(this.#plan, items);
    const added = await mapSome(missing, AT_ONCE, (item) => this.#addOne(item));
    return added.filter(Boolean).length;
  }

  async counts(): Promise<QueueCounts> {
    const counts = await this.#queue.getJobCounts('wait', 'prioritized', 'delayed', 'active', 'failed');
    return {
      waiting: (counts.wait ?? 0) + (counts.prioritized ?? 0) + (counts.delayed ?? 0),
      underWay: counts.active ?? 0,
      failed: counts.failed ?? 0,
    };
  }

  /** Takes all that waits out of the queue; what is under way is finished. */
  async drain(): Promise<void> {
    await this.#queue.drain(true);
  }

  async close(): Promise<void> {
    await this.#queue.close();
  }

  /** Items that neither are there nor failed for good. */
  async missing(): Promise<Item[]> {
    const { missing } = await lookForItems(this.#plan, this.#plan.items);
    const failures = await mapSome(missing, AT_ONCE, (item) => readFailure(this.#plan.folder, item));
    return missing.filter((_, index) => failures[index] === undefined);
  }

  async #addOne({ address, name }: Item): Promise<boolean> {
    // An id that looks like a number is refused by the engine.
    const jobId = `render-${address}`;
    const before = await this.#queue.getJob(jobId);
    if (before) {
      const state = await before.getState();
      if (state !== 'completed' && state !== 'failed' && state !== 'unknown') return false;
      await before.remove();
    }
    await this.#queue.add('render', { address, name }, { jobId, removeOnComplete: true });
    return true;
  }
}
