import { availableParallelism } from 'node:os';
import type { Fault } from '../../fault.ts';
import { workerUrl } from '../code/worker-url.ts';
import { Allowance } from './allowance.ts';
import { CrewTask } from './crew-task.ts';
import { type Limits, RENDER_LIMITS, THREAD_MEGABYTES } from './limits.ts';
import { Seat } from './seat.ts';

/** How often the threads are looked after, in ms: an endless allocation fills some 2 MB in each. */
const ROUND_MS = 50;

const MEGABYTE = 1 << 20;

/** What looks at the seams of a large picture beside the crew takes as much as a thread of it, and is no effect's. */
const SEAM_EYES = 1;

/**
 * A few worker threads that load and prepare effects and paint bands. They start when first asked and
 * stay warm until `close`, so a second render of the same process starts at once. What hangs, crashes
 * or takes too much costs one render; its threads are replaced and the crew goes on.
 *
 * Memory is measured for the whole process, since most of it (typed arrays) lies outside the heap that
 * V8 limits and cannot be told apart by thread. Where several renders share a process, the thread that
 * has shown no progress for longest answers for it.
 */
export class Crew {
  readonly size: number;
  readonly limits: Limits;
  readonly #seats: Seat[] = [];
  readonly #tasks = new Map<number, CrewTask>();
  #lastTask = 0;
  #round?: NodeJS.Timeout;
  readonly #allowance: Allowance;
  readonly #isBrief: boolean;

  /** @param isBrief True for a crew of one render: a thread then begins only where it saves more than it takes to begin. */
  constructor(size = availableParallelism(), limits: Partial<Limits> = {}, isBrief = false) {
    this.#isBrief = isBrief;
    this.size = size;
    this.limits = { ...RENDER_LIMITS, ...limits };
    this.#allowance = new Allowance(
      this.limits.megabytes * MEGABYTE,
      THREAD_MEGABYTES * (this.size + SEAM_EYES) * MEGABYTE,
    );
  }

  /** Opens a render; whoever opens it ends it. */
  begin(): CrewTask {
    const id = ++this.#lastTask;
    const task = new CrewTask(id, {
      seats: () => this.#takeSeats(),
      expect: (bytes) => this.#allowance.expect(id, bytes, process.memoryUsage.rss()),
      leave: ({ mark }) => this.#leave(mark.id),
      isBrief: this.#isBrief,
    });
    this.#tasks.set(task.mark.id, task);
    this.#round ??= setInterval(() => this.#lookAfter(performance.now()), ROUND_MS).unref();
    return task;
  }

  /** Stops the threads at once, in the middle of whatever they do; pending work ends as cancelled. */
  async close(): Promise<void> {
    await Promise.all(this.#seats.splice(0).map((seat) => seat.close()));
  }

  async #takeSeats(): Promise<readonly Seat[]> {
    const url = await workerUrl('paint');
    while (this.#seats.length < this.size) {
      this.#seats.push(new Seat(url, this.limits.megabytes, (task, fault) => this.#hearStray(task, fault)));
    }
    return this.#seats;
  }

  #leave(id: number): void {
    this.#tasks.delete(id);
    this.#allowance.leave(id, process.memoryUsage.rss());
    if (this.#tasks.size > 0) return;
    clearInterval(this.#round);
    this.#round = undefined;
  }

  /** The render an error was left behind by may be over; then nobody's work is lost, but it is told. */
  #hearStray(id: number | undefined, fault: Fault): void {
    const task = id === undefined ? undefined : this.#tasks.get(id);
    if (task) task.fail(fault);
    else process.emitWarning(`${fault.message} It came after its render was over.`);
  }

  #lookAfter(now: number): void {
    const busy = this.#seats
      .map((seat) => ({ seat, still: seat.stillFor(now), task: this.#taskOf(seat) }))
      .filter((one) => one.task && !one.task.hasFailed)
      .sort((a, b) => b.still - a.still);
    for (const { seat, still, task } of busy) {
      if (still > this.limits.seconds * 1000 && !task!.hasFailed) task!.fail(this.#hungFault(seat));
    }
    if (busy.length === 0 || process.memoryUsage.rss() <= this.#allowance.bytes) return;
    busy[0].task!.fail(this.#greedyFault(busy[0].seat), 0);
  }

  #taskOf(seat: Seat): CrewTask | undefined {
    return seat.task && this.#tasks.get(seat.task.id);
  }

  #hungFault(seat: Seat): Fault {
    return seat.faultOfCurrent(
      `no progress for ${this.limits.seconds} s`,
      'It was stopped. If it only needs longer, raise --time-limit; a prepare with long loops calls setting.progress; a paint has to fill a band within that time.',
    );
  }

  #greedyFault(seat: Seat): Fault {
    return seat.faultOfCurrent(
      `more than ${this.limits.megabytes} MB of memory taken`,
      'It was stopped. If it really needs more, raise --memory-limit.',
    );
  }
}
