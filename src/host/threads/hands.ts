import { Fault } from '../../fault.ts';
import { workerUrl } from '../code/worker-url.ts';
import { type HandAnswer, type HandOrder, type HandResults, isHandAnswer } from './hand-order.ts';
import { KeptThread } from './kept-thread.ts';
import { YOUNG_HEAP_MEGABYTES } from './limits.ts';

type Kind = HandOrder['kind'];

/** What each kind of order is for, as a failure says it. */
const SUBJECTS: Readonly<Record<Kind, string>> = {
  tile: 'the seam check',
  edges: 'the seam check',
  closing: 'the seam check',
  result: 'the seam check',
  resample: 'the density of the tile',
  light: 'the light of the picture',
  'plan close': 'making the picture close',
  close: 'making the picture close',
  change: 'making the picture close',
};

/**
 * Threads for what is neither painting nor writing: checking seams and closing pictures take as long as painting,
 * and the main thread has to stay free to keep the others at work.
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
  async ask<K extends Kind>(order: Extract<HandOrder, { kind: K }>): Promise<HandResults[K]> {
    if (this.#busy >= this.#size) await new Promise((resolve) => this.#waiting.push(resolve));
    else this.#busy++;
    let hand: Hand | undefined;
    try {
      hand = this.#idle.pop() ?? (await this.#hire(order));
      return (await hand.ask(order)) as HandResults[K];
    } finally {
      if (hand?.isAlive) this.#idle.push(hand);
      else if (hand) this.#alive.delete(hand);
      // The place goes from hand to hand; it is free only where nobody waits.
      const next = this.#waiting.shift();
      if (next) next(undefined);
      else this.#busy--;
    }
  }

  async #hire({ kind }: HandOrder): Promise<Hand> {
    const url = await this.#url();
    if (this.#isGivenUp) throw failed(SUBJECTS[kind], 'nobody that waits for it any longer');
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
  readonly subject: string;
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
        this.#settle(({ subject, resolve, reject }) =>
          'result' in answer ? resolve(answer.result) : reject(faultOf(subject, answer)),
        ),
      lose: ({ reason }: { readonly reason: string }) => {
        this.isAlive = false;
        this.#settle(({ subject, reject }) => reject(failed(subject, `the end of its thread (${reason})`)));
      },
    };
    this.#thread = new KeptThread(url, keeper, {
      limits: { maxYoungGenerationSizeMb: YOUNG_HEAP_MEGABYTES },
    });
  }

  ask(order: HandOrder): Promise<unknown> {
    return new Promise((resolve, reject) => {
      this.#waiting = { subject: SUBJECTS[order.kind], resolve, reject };
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

function faultOf(subject: string, answer: Exclude<HandAnswer, { readonly result: unknown }>): Fault {
  return 'fault' in answer ? new Fault(answer.fault) : failed(subject, answer.failed);
}

function failed(subject: string, received: string): Fault {
  return new Fault({ kind: 'effect', expected: 'the worker to finish', subject, received });
}
