import { Fault } from '../../fault.ts';
import { workerUrl } from '../code/worker-url.ts';
import { type HandAnswer, type HandOrder, type HandResults, isHandAnswer } from './hand-order.ts';
import { KeptThread } from './kept-thread.ts';
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
  readonly #alive = new Set<Hand>();
  #isGivenUp = false;

  readonly #url: () => Promise<URL>;

  constructor(size: number, url = () => workerUrl('hand')) {
    this.#size = size;
    this.#url = url;
  }

  /** @throws Fault of what it was asked; Fault (effect) where the thread ends before it answers. */
  async ask<Kind extends HandOrder['kind']>(
    order: Extract<HandOrder, { kind: Kind }>,
  ): Promise<HandResults[Kind]> {
    if (this.#busy >= this.#size) await new Promise((resolve) => this.#waiting.push(resolve));
    else this.#busy++;
    let hand: Hand | undefined;
    try {
      hand = this.#idle.pop() ?? (await this.#hire());
      return (await hand.ask(order)) as HandResults[Kind];
    } finally {
      if (hand?.isAlive) this.#idle.push(hand);
      // The place goes from hand to hand; it is free only where nobody waits.
      const next = this.#waiting.shift();
      if (next) next(undefined);
      else this.#busy--;
    }
  }

  async #hire(): Promise<Hand> {
    const url = await this.#url();
    if (this.#isGivenUp) throw failed('nobody that waits for it any longer');
    const hand = new Hand(url);
    this.#alive.add(hand);
    return hand;
  }

  async close(): Promise<void> {
    await Promise.all(this.#idle.splice(0).map((hand) => hand.stop()));
  }

  /** Ends all, in the middle of whatever they do: of what was asked and not answered nothing is heard any more. */
  async giveUp(): Promise<void> {
    this.#isGivenUp = true;
    await Promise.all([...this.#alive].map((hand) => hand.stop()));
  }
}

interface Waiting {
  resolve(result: unknown): void;
  reject(fault: Fault): void;
}

/** One thread, with one order at a time. */
class Hand {
  readonly #thread: KeptThread<HandOrder, HandAnswer>;
  #waiting?: Waiting;
  isAlive = true;

  constructor(url: URL) {
    const keeper = {
      isAnswer: isHandAnswer,
      isLast: () => true,
      hear: (answer: HandAnswer) =>
        this.#settle(({ resolve, reject }) =>
          'result' in answer ? resolve(answer.result) : reject(faultOf(answer)),
        ),
      lose: ({ reason }: { readonly reason: string }) => {
        this.isAlive = false;
        this.#settle(({ reject }) => reject(failed(`the end of its thread (${reason})`)));
      },
    };
    this.#thread = new KeptThread(url, keeper, {
      limits: { maxYoungGenerationSizeMb: YOUNG_HEAP_MEGABYTES },
    });
  }

  ask(order: HandOrder): Promise<unknown> {
    return new Promise((resolve, reject) => {
      this.#waiting = { resolve, reject };
      this.#thread.give(order);
    });
  }

  stop(): Promise<void> {
    return this.#thread.stop();
  }

  #settle(how: (waiting: Waiting) => void): void {
    const waiting = this.#waiting;
    this.#waiting = undefined;
    if (waiting) how(waiting);
  }
}

function faultOf(answer: Exclude<HandAnswer, { readonly result: unknown }>): Fault {
  return 'fault' in answer ? new Fault(answer.fault) : failed(answer.failed);
}

function failed(received: string): Fault {
  return new Fault({ kind: 'effect', expected: 'the worker to finish', subject: 'the seam check', received });
}
