import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { cancelled } from '../effect/setting.ts';
import { Fault } from '../fault.ts';
import type { Answer, Order, PassOrder, Prepared } from './orders.ts';
import { workerUrl } from './worker-url.ts';

/** Heap a worker may take before it is stopped, so that one greedy effect does not take the machine. */
const WORKER_HEAP_MB = 2048;

interface Waiting {
  readonly resolve: (result?: Prepared) => void;
  readonly reject: (error: unknown) => void;
  readonly onProgress: (done: number) => void;
}

/**
 * A few worker threads that prepare effects and paint bands. They start when first asked and stay
 * warm until `close`, so a second render of the same process starts at once.
 */
export class Crew {
  readonly size: number;
  #workers: CrewWorker[] = [];

  constructor(size = availableParallelism()) {
    this.size = size;
  }

  /** Prepares several effects, side by side. */
  async prepare(
    orders: readonly Extract<Order, { kind: 'prepare' }>[],
    onProgress: (step: number, done: number) => void,
  ): Promise<Prepared[]> {
    const workers = await this.#start();
    return Promise.all(
      orders.map(async (order, index) => {
        const worker = workers[index % workers.length];
        return (await worker.ask(order, (done) => onProgress(index, done)))!;
      }),
    );
  }

  /** Lets every worker take bands until none is left. */
  async runPass(pass: PassOrder, onRows: (rows: number) => void): Promise<void> {
    const workers = await this.#start();
    await Promise.all(workers.map((worker) => worker.ask({ kind: 'pass', pass }, onRows)));
  }

  /** Stops the threads at once, in the middle of whatever they do; pending work ends as cancelled. */
  async close(): Promise<void> {
    const workers = this.#workers;
    this.#workers = [];
    await Promise.all(workers.map((worker) => worker.stop()));
  }

  async #start(): Promise<CrewWorker[]> {
    const url = await workerUrl();
    this.#workers = this.#workers.filter((worker) => worker.isAlive);
    while (this.#workers.length < this.size) this.#workers.push(new CrewWorker(url));
    return this.#workers;
  }
}

class CrewWorker {
  readonly #thread: Worker;
  readonly #waiting = new Map<number, Waiting>();
  #lastId = 0;
  isAlive = true;

  constructor(url: URL) {
    this.#thread = new Worker(url, { resourceLimits: { maxOldGenerationSizeMb: WORKER_HEAP_MB } });
    // An idle crew must not keep the process alive; `ask` holds it while there is work.
    this.#thread.unref();
    this.#thread.on('message', (answer: Answer) => this.#hear(answer));
    this.#thread.on('error', (error) => this.#fail(crashFault(error)));
    this.#thread.on('exit', () => this.#fail(cancelled()));
  }

  ask(order: Order, onProgress: (done: number) => void): Promise<Prepared | undefined> {
    return new Promise((resolve, reject) => {
      const id = ++this.#lastId;
      this.#waiting.set(id, { resolve, reject, onProgress });
      this.#thread.ref();
      this.#thread.postMessage({ id, order });
    });
  }

  async stop(): Promise<void> {
    this.#fail(cancelled());
    await this.#thread.terminate();
  }

  #hear(answer: Answer): void {
    const waiting = this.#waiting.get(answer.id);
    if (!waiting) return;
    if (answer.kind === 'progress') {
      waiting.onProgress(answer.done);
      return;
    }
    this.#waiting.delete(answer.id);
    if (this.#waiting.size === 0) this.#thread.unref();
    if (answer.kind === 'done') waiting.resolve(answer.result);
    else waiting.reject(new Fault(answer.fault));
  }

  #fail(reason: Fault): void {
    this.isAlive = false;
    for (const { reject } of this.#waiting.values()) reject(reason);
    this.#waiting.clear();
  }
}

function crashFault(error: unknown): Fault {
  const { code, message } = error as NodeJS.ErrnoException;
  return new Fault({
    kind: 'effect',
    expected: 'the worker to finish',
    subject: 'a render',
    received:
      code === 'ERR_WORKER_OUT_OF_MEMORY' ? `more than ${WORKER_HEAP_MB} MB of memory asked` : message,
    remedy: 'The render was stopped and nothing was written.',
    cause: error,
  });
}
