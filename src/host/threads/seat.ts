import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { cancelled } from '../../effect/setting.ts';
import { Fault } from '../../fault.ts';
import { isBuilt, packageRoot } from '../code/root.ts';
import { KeptThread, type ThreadEnd, type ThreadKeeper } from './kept-thread.ts';
import { V8_HEAP_MEGABYTES, YOUNG_HEAP_MEGABYTES } from './limits.ts';
import type { Answer, Order, Posted, Results, TaskMark } from './messages.ts';
import { Pulse } from './pulse.ts';
import { stoppedFault } from './stopped.ts';
import { isAnswer } from './worker-answer.ts';
import type { PaintGift } from './worker-gift.ts';

/** An order that waits for its answer. */
export interface Job extends Posted {
  readonly resolve: (result: Results[Order['kind']]) => void;
  readonly reject: (fault: Fault) => void;
  readonly onProgress: (done: number) => void;
}

type StrayListener = (task: number | undefined, fault: Fault) => void;

/**
 * One place for a worker thread. The thread has one order at a time; where it dies, or has to be
 * stopped, the next order gets a fresh one, and nobody else's order is lost.
 */
export class Seat {
  readonly #url: URL;
  readonly #megabytes: number;
  readonly #onStray: StrayListener;
  readonly #queue: Job[] = [];
  #thread?: KeptThread<Posted, Answer>;
  /** True once something was left running in the thread: it is replaced after its order. */
  #isWorn = false;
  #pulse = new Pulse();
  #current?: Job;
  #lastBeat = -1;
  #movedAt = 0;

  constructor(url: URL, megabytes: number, onStray: StrayListener) {
    this.#url = url;
    this.#megabytes = megabytes;
    this.#onStray = onStray;
  }

  /** Whose order the thread has. */
  get task(): TaskMark | undefined {
    return this.#current?.task;
  }

  /** How many orders it has and keeps waiting. */
  get load(): number {
    return this.#queue.length + (this.#current ? 1 : 0);
  }

  /** True once a thread was started that still lives. */
  get isWarm(): boolean {
    return this.#thread !== undefined;
  }

  ask(job: Job): void {
    this.#queue.push(job);
    this.#next();
  }

  /** ms since the thread last gave a sign of progress; 0 where it has nothing to do. */
  stillFor(now: number): number {
    if (!this.#current) return 0;
    const { beat } = this.#pulse.read();
    if (beat !== this.#lastBeat) {
      this.#lastBeat = beat;
      this.#movedAt = now;
    }
    return now - this.#movedAt;
  }

  /** The fault of what the thread is at, which `received` says. */
  faultOfCurrent(received: string, remedy: string, cause?: unknown): Fault {
    return stoppedFault(this.#current!.order, this.#pulse.read(), { received, remedy, cause });
  }

  /** Gives up those orders of a task that it has not begun. */
  withdraw(task: TaskMark): void {
    const mine = this.#queue.filter((job) => job.task.id === task.id);
    for (const job of mine) {
      this.#queue.splice(this.#queue.indexOf(job), 1);
      job.reject(cancelled());
    }
  }

  /** Gives up all orders of a task, in the middle of whatever is done. */
  drop(task: TaskMark): void {
    this.withdraw(task);
    if (this.#current?.task.id === task.id) {
      void this.#dismiss();
      this.#finish((job) => job.reject(cancelled()));
    }
  }

  async close(): Promise<void> {
    const jobs = [...(this.#current ? [this.#current] : []), ...this.#queue.splice(0)];
    this.#current = undefined;
    const gone = this.#dismiss();
    for (const job of jobs) job.reject(cancelled());
    await gone;
  }

  #next(): void {
    if (this.#current || this.#queue.length === 0) return;
    this.#current = this.#queue.shift()!;
    this.#thread ??= this.#hire();
    this.#lastBeat = -1;
    this.#movedAt = performance.now();
    const { task, order } = this.#current;
    this.#thread.give({ task, order });
  }

  #finish(settle: (job: Job) => void): void {
    const job = this.#current!;
    this.#current = undefined;
    if (this.#isWorn) void this.#dismiss();
    settle(job);
    this.#next();
  }

  #hire(): KeptThread<Posted, Answer> {
    this.#pulse = new Pulse();
    const gift: PaintGift = { pulse: this.#pulse.cells, ownModules, megabytes: this.#megabytes };
    const keeper: ThreadKeeper<Posted, Answer> = {
      isAnswer: (said, posted): said is Answer => isAnswer(said, posted?.order),
      isLast: ({ kind }) => kind === 'done' || kind === 'fault',
      hear: (answer) => this.#hear(answer),
      lose: (end) => this.#lose(end),
    };
    return new KeptThread(this.#url, keeper, { gift, limits: HEAP });
  }

  async #dismiss(): Promise<void> {
    const thread = this.#thread;
    this.#thread = undefined;
    this.#isWorn = false;
    await thread?.stop();
  }

  #hear(answer: Answer): void {
    switch (answer.kind) {
      case 'progress':
        this.#current?.onProgress(answer.done);
        break;
      case 'done':
        this.#finish((job) => job.resolve(answer.result));
        break;
      case 'fault':
        this.#finish((job) => job.reject(new Fault(answer.fault)));
        break;
      case 'stray':
        this.#hearStray(answer.task, answer.isEnding, new Fault(answer.fault));
    }
  }

  /**
   * A thread that something was left running in is replaced, but not in the middle of another render's
   * order: the bands that it has taken nobody else would paint, and what was laid in place cannot be laid
   * again. A thread that comes to its end by itself is between orders, so that its next has not begun.
   */
  #hearStray(task: number | undefined, isEnding: boolean, fault: Fault): void {
    const job = this.#current;
    if (job && job.task.id !== task && !isEnding) {
      if (!this.#isWorn) this.#onStray(task, fault);
      this.#isWorn = true;
      return;
    }
    void this.#dismiss();
    this.#current = undefined;
    if (job && job.task.id !== task) this.#queue.unshift(job);
    this.#onStray(task, fault);
    if (job && job.task.id === task) job.reject(fault);
    this.#next();
  }

  #lose({ reason, cause, order }: ThreadEnd<Posted>): void {
    void this.#dismiss();
    if (this.#current?.order !== order?.order) {
      // It had answered; what came next never reached it.
      if (this.#current) this.#queue.unshift(this.#current);
      this.#current = undefined;
      this.#next();
      return;
    }
    if (!this.#current) return;
    const remedy = 'The render was stopped and nothing was written.';
    const fault = this.faultOfCurrent(`the end of its thread (${reason})`, remedy, cause);
    this.#finish((job) => job.reject(fault));
  }
}

const HEAP = {
  maxOldGenerationSizeMb: V8_HEAP_MEGABYTES,
  maxYoungGenerationSizeMb: YOUNG_HEAP_MEGABYTES,
};

const ownModules = isBuilt ? pathToFileURL(join(packageRoot, 'dist/plugins/')).href : undefined;
