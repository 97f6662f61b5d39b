import { Worker } from 'node:worker_threads';
import { Fault } from '../../fault.ts';
import { workerUrl } from '../code/worker-url.ts';
import type { HandAnswer, HandOrder, HandResults } from './hand-order.ts';
import { YOUNG_HEAP_MEGABYTES } from './limits.ts';

/**
 * Threads for what is neither painting nor writing: checking seams takes as long as painting, and the
 * main thread has to stay free to keep the others at work.
 */
export class Hands {
  readonly #size: number;
  readonly #idle: Hand[] = [];
  readonly #waiting: ((place: undefined) => void)[] = [];
  #busy = 0;

  readonly #url: () => Promise<URL>;

  constructor(size: number, url = () => workerUrl('hand')) {
    this.#size = size;
    this.#url = url;
  }

  /** @throws Fault (effect) where the thread ends before it answers. */
  async ask<Kind extends HandOrder['kind']>(
    order: Extract<HandOrder, { kind: Kind }>,
  ): Promise<HandResults[Kind]> {
    if (this.#busy >= this.#size) await new Promise((resolve) => this.#waiting.push(resolve));
    else this.#busy++;
    let hand: Hand | undefined;
    try {
      hand = this.#idle.pop() ?? new Hand(await this.#url());
      return (await hand.ask(order)) as HandResults[Kind];
    } finally {
      if (hand?.isAlive) this.#idle.push(hand);
      // The place goes from hand to hand; it is free only where nobody waits.
      const next = this.#waiting.shift();
      if (next) next(undefined);
      else this.#busy--;
    }
  }

  async close(): Promise<void> {
    await Promise.all(this.#idle.splice(0).map((hand) => hand.stop()));
  }
}

/** One thread, with one order at a time. */
class Hand {
  readonly #thread: Worker;
  #waiting?: { resolve(result: unknown): void; reject(fault: Fault): void };
  isAlive = true;

  constructor(url: URL) {
    this.#thread = new Worker(url, { resourceLimits: { maxYoungGenerationSizeMb: YOUNG_HEAP_MEGABYTES } });
    this.#thread.unref();
    this.#thread.on('message', (answer: HandAnswer) =>
      this.#settle(({ resolve, reject }) =>
        'result' in answer ? resolve(answer.result) : reject(failed(answer.failed)),
      ),
    );
    this.#thread.on('error', (error) => this.#die(error.message));
    this.#thread.on('exit', () => this.#die('a thread that ended'));
  }

  ask(order: HandOrder): Promise<unknown> {
    return new Promise((resolve, reject) => {
      this.#waiting = { resolve, reject };
      // An idle hand must not keep the process alive.
      this.#thread.ref();
      this.#thread.postMessage(order);
    });
  }

  async stop(): Promise<void> {
    await this.#thread.terminate();
  }

  #die(reason: string): void {
    this.isAlive = false;
    this.#settle(({ reject }) => reject(failed(reason)));
  }

  #settle(how: (waiting: { resolve(result: unknown): void; reject(fault: Fault): void }) => void): void {
    const waiting = this.#waiting;
    this.#waiting = undefined;
    this.#thread.unref();
    if (waiting) how(waiting);
  }
}

function failed(received: string): Fault {
  return new Fault({ kind: 'effect', expected: 'the worker to finish', subject: 'the seam check', received });
}
