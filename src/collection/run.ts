import { availableParallelism } from 'node:os';
import type { Shelf } from '../host/shelf.ts';
import { type Admitted, type Bench, openBench } from './bench.ts';
import { Claims } from './claims.ts';
import type { RunEvent } from './events.ts';
import { type Failure, keepFailure } from './failures.ts';
import type { Item } from './item.ts';
import { ItemMaker } from './make-item.ts';
import { defaultBudget } from './memory.ts';
import { orderForWork } from './order.ts';
import { Owner } from './owner.ts';
import { Pace } from './pace.ts';
import type { Plan } from './plan.ts';
import { commandFor } from './reproduce.ts';
import { remedyFor } from './retry.ts';
import { lookForItems } from './standing.ts';

/** How a plan is run. */
export interface RunSettings {
  readonly shelf: Shelf;
  /** Threads that work; all cores where absent. The bytes are the same for any number. */
  readonly workers?: number;
  /** Bytes that may be in use; half of the machine's where absent. */
  readonly memory?: number;
  /** Longest time that an effect may go without a sign of progress, in s. */
  readonly secondsPerCall?: number;
  /** How long to wait for room on a full disk, in s; 15 where absent. */
  readonly roomSeconds?: number;
  /** Replace files of strangers that have the name of a render. */
  readonly overwrite?: boolean;
  /** Read pictures whole before they count as made. */
  readonly verify?: boolean;
  /** Folders of plugins, for the commands that are told. */
  readonly plugins?: readonly string[];
  readonly signal?: AbortSignal;
  readonly onEvent?: (event: RunEvent) => void;
}

/** What came of a run. */
export interface RunResult {
  readonly made: number;
  /** There already when the run began. */
  readonly kept: number;
  /** Made meanwhile by another run on the same folder. */
  readonly elsewhere: number;
  readonly failed: readonly Failure[];
  /** Neither made nor failed. */
  readonly left: number;
  readonly stopped?: 'cancelled' | 'full';
  readonly seconds: number;
  /** Most memory of the process, in bytes. */
  readonly peakBytes: number;
  readonly saved: Saved;
}

/** Work that was not done again. */
export interface Saved {
  readonly decodes: number;
  readonly tileChecks: number;
  readonly prepares: number;
  readonly paints: number;
}

/** How long to wait, in ms, before looking again at what another run has in hand. */
const LOOK_AGAIN_MS = 400;
/** Before looking again for room on a full disk: the first time, and at most. */
const ROOM_WAIT_MS = 500;
const LONGEST_ROOM_WAIT_MS = 30_000;
const ROOM_SECONDS = 15;

/**
 * Makes all items that are not there. What fails is tried again where that can help and never stops the
 * rest. Several runs may work on one folder.
 *
 * @throws Fault (output) where the output folder cannot be written at all.
 */
export async function runItems(
  plan: Plan,
  items: readonly Item[],
  settings: RunSettings,
): Promise<RunResult> {
  return new Run(plan, settings).toEnd(items);
}

class Run {
  readonly #plan: Plan;
  readonly #settings: RunSettings;
  readonly #owner: Owner;
  readonly #claims: Claims;
  readonly #bench: Bench;
  readonly #maker: ItemMaker;
  readonly #failed: Failure[] = [];
  readonly #counts = { made: 0, elsewhere: 0 };
  #pace!: Pace;
  #stopped?: 'cancelled' | 'full';

  constructor(plan: Plan, settings: RunSettings) {
    this.#plan = plan;
    this.#settings = settings;
    this.#owner = new Owner(plan.folder);
    this.#claims = new Claims(plan.folder, this.#owner);
    const { shelf, workers = availableParallelism(), memory = defaultBudget() } = settings;
    this.#bench = openBench({ shelf, workers, budget: memory, seconds: settings.secondsPerCall });
    this.#maker = new ItemMaker(plan.folder, this.#owner, settings);
  }

  async toEnd(items: readonly Item[]): Promise<RunResult> {
    const started = performance.now();
    await this.#owner.open();
    try {
      await this.#claims.open();
      await this.#owner.clearGone();
      const { made, missing } = await lookForItems(this.#plan, items, this.#settings.verify);
      this.#pace = new Pace(missing, (event) => this.#say(event));
      this.#pace.begin(made.size);
      for (const item of missing) this.#bench.expect(item);
      await this.#makeAll(orderForWork(missing));
      const seconds = (performance.now() - started) / 1000;
      return this.#result(missing.length, made.size, seconds);
    } finally {
      await this.#bench.close();
      await this.#owner.close();
    }
  }

  async #makeAll(missing: readonly Item[]): Promise<void> {
    let rest = await this.#makeSome(missing);
    const { signal, roomSeconds = ROOM_SECONDS } = this.#settings;
    let wait = ROOM_WAIT_MS;
    for (let left = roomSeconds * 1000; this.#isFull() && left > 0 && !signal?.aborted; left -= wait) {
      this.#say({ event: 'waiting', words: `the disk is full; ${rest.length} renders wait for room` });
      await pause(wait, signal);
      wait = Math.min(2 * wait, LONGEST_ROOM_WAIT_MS);
      this.#stopped = undefined;
      rest = await this.#makeSome(rest);
    }
  }

  /** @returns What is left to do where the run was stopped. */
  async #makeSome(items: readonly Item[]): Promise<Item[]> {
    const waiting = [...items];
    const lastly: Item[] = [];
    const theirs: Item[] = [];
    const busy = new Set<Promise<void>>();
    const left: Item[] = [];
    const start = (item: Item, alone: boolean, admitted: Admitted) => {
      const work = this.#attempt(item, alone, admitted).then((outcome) => {
        busy.delete(work);
        if (outcome === 'alone') lastly.push(item);
        if (outcome === 'theirs') theirs.push(item);
        if (outcome === 'left') left.push(item);
      });
      busy.add(work);
    };
    while (waiting.length > 0 && !this.#isStopped()) {
      const admitted = this.#bench.admit(waiting[0], busy.size, waiting.length);
      if (admitted) start(waiting.shift()!, false, admitted);
      else if (busy.size > 0) await Promise.race(busy);
      else await this.#refuse(waiting.shift()!);
    }
    await Promise.all(busy);
    while (lastly.length > 0 && !this.#isStopped()) {
      const item = lastly.shift()!;
      const admitted = this.#bench.admit(item, 0, 1, true);
      if (admitted) start(item, true, admitted);
      else await this.#refuse(item);
      await Promise.all(busy);
    }
    if (!this.#isStopped() && theirs.length > 0) {
      await pause(LOOK_AGAIN_MS, this.#settings.signal);
      return this.#makeSome(theirs);
    }
    return [...waiting, ...lastly, ...theirs, ...left];
  }

  /** The item does not fit into the budget even alone. */
  async #refuse(item: Item): Promise<void> {
    await this.#fail(item, this.#bench.tooLarge(item), 0);
  }

  async #attempt(
    item: Item,
    alone: boolean,
    admitted: Admitted,
  ): Promise<'done' | 'alone' | 'theirs' | 'left'> {
    let claim: Awaited<ReturnType<Claims['ask']>> | undefined;
    try {
      claim = await this.#claims.ask(item);
      if (claim.kind === 'theirs') return 'theirs';
      return await this.#makeClaimed(item, alone, admitted, claim.after);
    } catch (error) {
      return this.#judge(item, error, alone);
    } finally {
      if (claim?.kind === 'ours') await claim.release();
      admitted.end();
    }
  }

  async #makeClaimed(item: Item, alone: boolean, admitted: Admitted, after: boolean): Promise<'done'> {
    const meter = this.#pace.start(item);
    try {
      const { sidecar, isNew } = await this.#maker.make(item, {
        admitted,
        after,
        meter,
        attempt: alone ? 2 : 1,
      });
      if (isNew) this.#counts.made++;
      else this.#counts.elsewhere++;
      this.#say(
        isNew
          ? {
              event: 'made',
              name: item.name,
              seconds: sidecar.run.milliseconds.whole / 1000,
              closes: sidecar.seams.closes,
            }
          : { event: 'found', name: item.name },
      );
      this.#end(item);
      return 'done';
    } finally {
      meter.end();
    }
  }

  async #judge(item: Item, error: unknown, alone: boolean): Promise<'done' | 'alone' | 'left'> {
    const remedy = remedyFor(error);
    if (remedy === 'stopped' || remedy === 'full') {
      this.#stopped = remedy === 'full' ? 'full' : 'cancelled';
      return 'left';
    }
    if (remedy === 'alone' && !alone) {
      this.#say({ event: 'retry', name: item.name, reason: reasonOf(error), how: 'by itself, at the end' });
      return 'alone';
    }
    await this.#fail(item, error, alone ? 2 : 1);
    return 'done';
  }

  async #fail(item: Item, error: unknown, attempts: number): Promise<void> {
    const failure: Failure = {
      address: item.address,
      name: item.name,
      kind: (error as { kind?: string }).kind ?? 'bug',
      reason: reasonOf(error),
      command: commandFor(this.#plan, item, this.#settings.plugins ?? []),
      attempts,
    };
    this.#failed.push(failure);
    const { address, ...told } = failure;
    this.#say({ event: 'failed', ...told });
    this.#end(item);
    // A disk that is full cannot take the record either; the run itself still tells.
    await keepFailure(this.#plan.folder, failure).catch((cause) =>
      this.#say({
        event: 'waiting',
        words: `the failure of ${item.name} could not be recorded: ${reasonOf(cause)}`,
      }),
    );
  }

  #end(item: Item): void {
    this.#pace.done(item);
    this.#bench.release(item);
  }

  #isFull(): boolean {
    return this.#stopped === 'full';
  }

  #isStopped(): boolean {
    if (this.#settings.signal?.aborted) this.#stopped = 'cancelled';
    return this.#stopped !== undefined;
  }

  #result(asked: number, kept: number, seconds: number): RunResult {
    const { made, elsewhere } = this.#counts;
    return {
      made,
      kept,
      elsewhere,
      failed: [...this.#failed].sort((a, b) => (a.name < b.name ? -1 : 1)),
      left: asked - made - elsewhere - this.#failed.length,
      stopped: this.#stopped,
      seconds,
      peakBytes: process.resourceUsage().maxRSS * 1024,
      saved: this.#bench.saved(),
    };
  }

  #say(event: RunEvent): void {
    this.#settings.onEvent?.(event);
  }
}

function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

function pause(milliseconds: number, signal?: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    const end = () => {
      clearTimeout(timer);
      signal?.removeEventListener('abort', end);
      resolve();
    };
    const timer = setTimeout(end, milliseconds);
    if (signal?.aborted) end();
    else signal?.addEventListener('abort', end);
  });
}
