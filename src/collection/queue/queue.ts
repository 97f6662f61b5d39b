import type { Queue } from 'bullmq';
import { readFailure } from '../disk/failures.ts';
import { sha256 } from '../disk/hash.ts';
import { lookForItems } from '../disk/standing.ts';
import { mapSome } from '../making/each.ts';
import type { Item } from '../plan/item.ts';
import type { Plan } from '../plan/plan.ts';
import { type JobData, jobIdOf } from './job.ts';
import {
  type Engine,
  openEngine,
  PATIENT,
  PROBE_KEY,
  PROBE_MS,
  type QueuePlace,
  type Redis,
} from './redis.ts';

/** How many jobs of a plan stand where. */
export interface QueueCounts {
  readonly waiting: number;
  readonly underWay: number;
  /** Jobs that were none of ours. */
  readonly setAside: number;
}

/** Calls to Redis that are under way at once. */
const AT_ONCE = 32;
/** States in which a job will be taken, or is; ours are never delayed, and never wait for others. */
const QUEUED = ['waiting', 'prioritized', 'active'];
/** What makes a job unreadable for the engine, or ties it to others; ours have none of it. */
const TIES = ['parent', 'parentKey', 'rjk', 'deid', 'defa'];

/**
 * The queue of a plan. Its name follows from all addresses, so that workers whose tiles, effects or
 * versions differ do not take each other's work; jobs are named by their address, so that nothing is
 * queued twice.
 */
export class PlanQueue {
  readonly engine: Engine;
  readonly connection: { readonly url: string } & typeof PATIENT;
  readonly name: string;
  readonly #plan: Plan;
  readonly #client: Redis;
  readonly #queue: Queue<JobData>;

  private constructor(plan: Plan, engine: Engine, client: Redis, { url }: QueuePlace) {
    this.#plan = plan;
    this.engine = engine;
    this.connection = { url, ...PATIENT };
    const addresses = plan.items.map(({ address }) => address).sort();
    this.name = `tenter-${sha256(addresses.join('\n')).slice(0, 16)}`;
    this.#client = client;
    // While Redis is away calls wait for it; whoever waits feels its pulse.
    client.on('error', () => {});
    this.#queue = new engine.Queue(this.name, { connection: client });
    this.#queue.on('error', () => {});
  }

  /** @throws Fault where Redis or the engine cannot be had. */
  static async open(plan: Plan, place: QueuePlace): Promise<PlanQueue> {
    const { engine, client } = await openEngine(place);
    return new PlanQueue(plan, engine, client, place);
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
    const counts = await this.#queue.getJobCounts('wait', 'prioritized', 'active', 'failed');
    return {
      waiting: (counts.wait ?? 0) + (counts.prioritized ?? 0),
      underWay: counts.active ?? 0,
      setAside: counts.failed ?? 0,
    };
  }

  /** A sign that Redis answers and takes what it is given. */
  async feel(): Promise<void> {
    await this.#client.set(PROBE_KEY, '', 'PX', PROBE_MS);
  }

  /** Takes all that waits out of the queue, and what was set aside; what is under way is finished. */
  async drain(): Promise<void> {
    await this.#queue.drain(true);
    await this.#queue.clean(0, 0, 'failed');
  }

  /** Ends at once, whether Redis answers or not. */
  close(): void {
    // There is nothing that it waits for: the connection is ours.
    void this.#queue.close().catch(() => {});
    this.#client.disconnect();
  }

  /** Items that neither are there nor failed for good. */
  async missing(): Promise<Item[]> {
    const { missing } = await lookForItems(this.#plan, this.#plan.items);
    const failures = await mapSome(missing, AT_ONCE, (item) => readFailure(this.#plan.folder, item));
    return missing.filter((_, index) => failures[index] === undefined);
  }

  /**
   * Sets aside what was taken and cannot be read: the engine fails at it, forgets it, and would hand it
   * out again and again.
   *
   * @returns Ids of what this call set aside.
   */
  async setUnreadableAside(): Promise<string[]> {
    const ids = await this.#client.lrange(this.#queue.toKey('active'), 0, -1);
    const isOurs = await mapSome(ids, AT_ONCE, (id) => this.#setAsideUnlessReadable(id));
    return ids.filter((_, index) => !isOurs[index]);
  }

  /** @returns False where it was set aside, by this call. */
  async #setAsideUnlessReadable(id: string): Promise<boolean> {
    const key = this.#queue.toKey(id);
    const isHash = (await this.#client.type(key)) === 'hash';
    if (isHash && isReadable(await this.#client.hgetall(key))) return true;
    // Several workers may find it; one takes it away.
    if ((await this.#client.lrem(this.#queue.toKey('active'), 1, id)) === 0) return true;
    if (!isHash) await this.#client.del(key);
    await this.#client.hdel(key, ...TIES);
    await this.#client.hset(key, { data: '{}', opts: '{}', progress: '0', failedReason: 'not to be read' });
    await this.#client.zadd(this.#queue.toKey('failed'), Date.now(), id);
    return false;
  }

  async #addOne(item: Item): Promise<boolean> {
    const { address, name } = item;
    const jobId = jobIdOf(item);
    const key = this.#queue.toKey(jobId);
    const type = await this.#client.type(key);
    // Under the name of our job stands something else.
    if (type !== 'hash' && type !== 'none') await this.#client.del(key);
    if (type === 'hash') {
      const state = await this.#queue.getJobState(jobId);
      if (QUEUED.includes(state)) return false;
      await this.#queue.remove(jobId);
    }
    await this.#queue.add('render', { address, name }, { jobId, removeOnComplete: true });
    return true;
  }
}

function isReadable(job: Readonly<Record<string, string>>): boolean {
  if (TIES.some((tie) => tie in job)) return false;
  const { data = '{}', opts = '{}', progress = '0' } = job;
  try {
    for (const text of [data, opts, progress]) JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}
