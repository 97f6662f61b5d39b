import { Worker } from 'node:worker_threads';
import { cancelled } from '../../effect/setting.ts';
import { Fault } from '../../fault.ts';
import { V8_HEAP_MEGABYTES, YOUNG_HEAP_MEGABYTES } from './limits.ts';
import type { Answer, Order, Posted, Results, TaskMark } from './messages.ts';
import { Pulse } from './pulse.ts';
import { stoppedFault } from './stopped.ts';

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
  readonly #onStray: StrayListener;
  readonly #queue: Job[] = [];
  #thread?: Worker;
  #pulse = new Pulse();
  #current?: Job;
  #lastBeat = -1;
  #movedAt = 0;

  constructor(url: URL, onStray: StrayListener) {
    this.#url = url;
    this.#onStray = onStray;
  }

  /** Whose order the thread has. */
  get task(): TaskMark | undefined {
    return this.#current?.task;
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

  /** Gives up all orders of a task, in the middle of whatever is done. */
  drop(task: TaskMark): void {
    const mine = this.#queue.filter((job) => job.task.id === task.id);
    for (const job of mine) {
      this.#queue.splice(this.#queue.indexOf(job), 1);
      job.reject(cancelled());
    }
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
    this.#thread.ref();
    const { task, order } = this.#current;
    this.#thread.postMessage({ task, order } satisfies Posted);
  }

  #finish(settle: (job: Job) => void): void {
    const job = this.#current!;
    this.#current = undefined;
    // An idle crew must not keep the process alive.
    this.#thread?.unref();
    settle(job);
    this.#next();
  }

  #hire(): Worker {
    this.#pulse = new Pulse();
    const thread = new Worker(this.#url, {
      workerData: this.#pulse.cells,
      resourceLimits: {
        maxOldGenerationSizeMb: V8_HEAP_MEGABYTES,
        maxYoungGenerationSizeMb: YOUNG_HEAP_MEGABYTES,
      },
      // What a plugin prints must not end up among the host's own answers.
      stdout: true,
    });
    thread.stdout.pipe(process.stderr, { end: false });
    thread.unref();
    thread.on('message', (answer: Answer) => thread === this.#thread && this.#hear(answer));
    thread.on('error', (error) => thread === this.#thread && this.#lose(error));
    thread.on('exit', (code) => thread === this.#thread && this.#lose(new Error(`exit code ${code}`)));
    return thread;
  }

  async #dismiss(): Promise<void> {
    const thread = this.#thread;
    this.#thread = undefined;
    await thread?.terminate();
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
        this.#hearStray(answer.task, new Fault(answer.fault));
    }
  }

  /** A thread that something was left running in is replaced; an order of another render starts again. */
  #hearStray(task: number | undefined, fault: Fault): void {
    void this.#dismiss();
    const job = this.#current;
    this.#current = undefined;
    if (job && job.task.id !== task) this.#queue.unshift(job);
    this.#onStray(task, fault);
    if (job && job.task.id === task) job.reject(fault);
    this.#next();
  }

  #lose(error: Error): void {
    void this.#dismiss();
    if (!this.#current) return;
    const remedy = 'The render was stopped and nothing was written.';
    const fault = this.faultOfCurrent(`the end of its thread (${error.message})`, remedy, error);
    this.#finish((job) => job.reject(fault));
  }
}
