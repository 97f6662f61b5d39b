import { availableParallelism } from 'node:os';
import { Fault } from '../../fault.ts';
import { unwritable } from '../../picture/faults.ts';
import { Claims } from '../disk/claims.ts';
import { checkFailures, type Failure, keepFailure } from '../disk/failures.ts';
import { Owner } from '../disk/owner.ts';
import type { Item } from '../plan/item.ts';
import type { Plan } from '../plan/plan.ts';
import { commandFor } from '../plan/reproduce.ts';
import type { RunEvent } from './events.ts';
import { ItemMaker } from './make-item.ts';
import { type Admitted, type Means, openMeans } from './means.ts';
import { defaultBudget } from './memory.ts';
import { Pace } from './pace.ts';
import { remedyFor } from './retry.ts';
import type { RunResult, RunSettings } from './run-settings.ts';

/** What came of an attempt at an item. */
export type Outcome =
  /** It is made, was found made, or has failed for good. */
  | 'done'
  /** It may do better by itself. */
  | 'alone'
  /** Another run has it in hand. */
  | 'theirs'
  /** The work was stopped, or the disk is full. */
  | 'left';

/** Where items are made, one attempt at a time and any number side by side; it knows nothing of their order. */
export class Workshop {
  readonly means: Means;
  readonly #plan: Plan;
  readonly #settings: RunSettings;
  readonly #owner: Owner;
  readonly #claims: Claims;
  readonly #maker: ItemMaker;
  readonly #failed: Failure[] = [];
  readonly #counts = { made: 0, elsewhere: 0 };
  readonly #started = performance.now();
  #pace!: Pace;
  #kept = 0;
  #asked = 0;
  #stopped?: 'cancelled' | 'full';

  constructor(plan: Plan, settings: RunSettings) {
    this.#plan = plan;
    this.#settings = settings;
    this.#owner = new Owner(plan.folder);
    this.#claims = new Claims(plan.folder, this.#owner);
    const { shelf, workers = availableParallelism(), memory = defaultBudget(), secondsPerCall } = settings;
    this.means = openMeans({ shelf, workers, budget: memory, seconds: secondsPerCall });
    this.#maker = new ItemMaker(plan.folder, this.#owner, settings);
  }

  /** @throws Fault (output) where the output folder cannot be written. */
  async open(): Promise<void> {
    try {
      await this.#owner.open();
      await this.#claims.open();
      await this.#owner.clearGone();
      await checkFailures(this.#plan.folder);
    } catch (cause) {
      throw Fault.is(cause) ? cause : unwritable(this.#plan.folder, cause);
    }
  }

  /** Told what is to be made, before any of it is. */
  begin(missing: readonly Item[], kept: number): void {
    this.#asked = missing.length;
    this.#kept = kept;
    this.#pace = new Pace(missing, (event) => this.say(event));
    this.#pace.begin(kept);
    for (const item of missing) this.means.expect(item);
  }

  async close(): Promise<void> {
    await this.means.close();
    await this.#owner.close();
  }

  /** True once the user stopped it, or the disk was full. */
  get isStopped(): boolean {
    if (this.#settings.signal?.aborted) this.#stopped = 'cancelled';
    return this.#stopped !== undefined;
  }

  get isFull(): boolean {
    return this.#stopped === 'full';
  }

  /** Tries again after the disk was full. */
  resume(): void {
    this.#stopped = undefined;
  }

  /** The item does not fit into the budget even alone. */
  async refuse(item: Item): Promise<void> {
    await this.#fail(item, this.means.tooLarge(item), 0);
  }

  /** Makes one item, if nobody else is at it. Never throws for what is wrong with the item. */
  async attempt(item: Item, alone: boolean, admitted: Admitted): Promise<Outcome> {
    let claim: Awaited<ReturnType<Claims['ask']>> | undefined;
    let isWell = false;
    try {
      claim = await this.#claims.ask(item);
      if (claim.kind === 'theirs') return 'theirs';
      const outcome = await this.#makeClaimed(item, alone, admitted);
      isWell = true;
      return outcome;
    } catch (error) {
      return this.#judge(item, error, alone);
    } finally {
      // A claim that cannot be taken away is nobody's as soon as this process ends.
      if (claim?.kind === 'ours') await claim.release().catch(() => {});
      admitted.end(isWell);
    }
  }

  async #makeClaimed(item: Item, alone: boolean, admitted: Admitted): Promise<'done'> {
    const meter = this.#pace.start(item);
    try {
      const { sidecar, isNew } = await this.#maker.make(item, {
        admitted,
        meter,
        attempt: alone ? 2 : 1,
      });
      if (isNew) this.#counts.made++;
      else this.#counts.elsewhere++;
      this.say(
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

  async #judge(item: Item, error: unknown, alone: boolean): Promise<Outcome> {
    const remedy = remedyFor(error);
    if (remedy === 'stopped' || remedy === 'full') {
      this.#stopped = remedy === 'full' ? 'full' : 'cancelled';
      return 'left';
    }
    if (remedy === 'alone' && !alone) {
      this.say({ event: 'retry', name: item.name, reason: reasonOf(error), how: 'by itself, at the end' });
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
    this.say({ event: 'failed', ...told });
    this.#end(item);
    // A disk that is full cannot take the record either; the run itself still tells.
    await keepFailure(this.#plan.folder, failure).catch((cause) =>
      this.say({
        event: 'waiting',
        words: `the failure of ${item.name} could not be recorded: ${reasonOf(cause)}`,
      }),
    );
  }

  #end(item: Item): void {
    this.#pace.done(item);
    this.means.release(item);
  }

  /** @param left Items that nobody made; where it is not given, nobody else was at work on these. */
  result(left?: number): RunResult {
    const { made } = this.#counts;
    const others = this.#asked - made - this.#failed.length;
    const elsewhere = left === undefined ? this.#counts.elsewhere : Math.max(0, others - left);
    const rest = left ?? others - elsewhere;
    // A stop may come while nothing is under way that would notice it, or when there is nothing left to stop.
    const isOver = left === undefined && rest === 0;
    return {
      made,
      kept: this.#kept,
      elsewhere,
      failed: [...this.#failed].sort((a, b) => (a.name < b.name ? -1 : 1)),
      left: rest,
      stopped: isOver || !this.isStopped ? undefined : this.#stopped,
      seconds: (performance.now() - this.#started) / 1000,
      peakBytes: process.resourceUsage().maxRSS * 1024,
      plannedBytes: this.means.memory.most,
      saved: this.means.saved(),
    };
  }

  say(event: RunEvent): void {
    this.#settings.onEvent?.(event);
  }
}

function reasonOf(error: unknown): string {
  if (Fault.is(error)) return error.message;
  // Anything else is a fault of this program, which its author has to find.
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
