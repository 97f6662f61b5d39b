import { ANSWER_MS } from './redis.ts';
import type { Refusal } from './redis-refusal.ts';

/** How often the queue is felt for, ms. */
const BEAT_MS = 1_000;

export interface PulseSettings {
  /** Asks the queue for a sign of life. */
  readonly ask: () => Promise<unknown>;
  /** How long it may be away, s. */
  readonly seconds: number;
  readonly describe: (error: unknown) => Refusal;
  readonly say: (words: string) => void;
  /** Told once, when it was away for too long. */
  readonly onLost: (refusal: Refusal) => void;
}

/** What the queue may be in trouble with: it does not answer, its jobs cannot be taken, or none can be added. */
type Part = 'answer' | 'take' | 'fill';

/**
 * Feels whether the queue works. While Redis is away the engine waits for it without an end and without a
 * word, so somebody else has to notice.
 */
export class QueuePulse {
  readonly #settings: PulseSettings;
  readonly #troubles = new Set<Part>();
  readonly #timer: NodeJS.Timeout;
  #askedAt?: number;
  #awaySince = 0;
  #refusal: Refusal;
  #isLost = false;

  constructor(settings: PulseSettings) {
    this.#settings = settings;
    this.#refusal = NO_ANSWER;
    this.#timer = setInterval(() => this.#beat(), BEAT_MS);
  }

  get isWell(): boolean {
    return this.#troubles.size === 0;
  }

  stop(): void {
    clearInterval(this.#timer);
  }

  /** @param error None where that part works again. */
  note(part: Part, error?: unknown): void {
    if (error === undefined) this.#end(part);
    else this.#begin(part, this.#settings.describe(error));
  }

  #beat(): void {
    const now = performance.now();
    if (this.#askedAt === undefined) this.#ask(now);
    else if (now - this.#askedAt > ANSWER_MS) this.#begin('answer', NO_ANSWER);
    if (this.isWell || this.#isLost || now - this.#awaySince < this.#settings.seconds * 1000) return;
    this.#isLost = true;
    this.#settings.onLost(this.#refusal);
  }

  #ask(now: number): void {
    this.#askedAt = now;
    const end = (error?: unknown) => {
      this.#askedAt = undefined;
      this.note('answer', error);
    };
    this.#settings.ask().then(() => end(), end);
  }

  #begin(part: Part, refusal: Refusal): void {
    const wasWell = this.isWell;
    this.#troubles.add(part);
    if (!wasWell) return;
    this.#awaySince = performance.now();
    this.#refusal = refusal;
    const { say, seconds } = this.#settings;
    say(`the queue is out of reach (${refusal.received}); it is waited for, ${seconds} s at most`);
  }

  #end(part: Part): void {
    if (this.#troubles.delete(part) && this.isWell) this.#settings.say('the queue is back');
  }
}

const NO_ANSWER: Refusal = {
  received: 'no answer',
  remedy: 'See to the Redis server.',
};
