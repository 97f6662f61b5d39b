import { pause } from './pause.ts';
import type { Workshop } from './workshop.ts';

/** What it needs of a workshop. */
type Waiting = Pick<Workshop, 'say' | 'resume'>;

/** Before looking again for room on a full disk: the first time, and at most, ms. */
const FIRST_WAIT_MS = 500;
const LONGEST_WAIT_MS = 30_000;
const ROOM_SECONDS = 15;

/** Waits for room on a full disk, once for all who need it. */
export class RoomWait {
  readonly #workshop: Waiting;
  readonly #whole: number;
  readonly #signal?: AbortSignal;
  #left: number;
  #next = FIRST_WAIT_MS;
  #waiting?: Promise<boolean>;

  /** @param seconds How long to wait in all, before there is room again. */
  constructor(workshop: Waiting, signal?: AbortSignal, seconds = ROOM_SECONDS) {
    this.#workshop = workshop;
    this.#signal = signal;
    this.#whole = seconds * 1000;
    this.#left = this.#whole;
  }

  /**
   * Waits a while.
   *
   * @param who Who waits, in words, such as `this worker waits`.
   * @returns False where it has been waited long enough, or the work was stopped.
   */
  wait(who: string): Promise<boolean> {
    this.#waiting ??= this.#waitOnce(who).finally(() => {
      this.#waiting = undefined;
    });
    return this.#waiting;
  }

  /** There was room. */
  found(): void {
    this.#left = this.#whole;
    this.#next = FIRST_WAIT_MS;
  }

  async #waitOnce(who: string): Promise<boolean> {
    if (this.#left <= 0 || this.#signal?.aborted) return false;
    const wait = Math.min(this.#next, this.#left);
    this.#workshop.say({ event: 'waiting', words: `the disk is full; ${who} for room` });
    await pause(wait, this.#signal);
    if (this.#signal?.aborted) return false;
    this.#left -= wait;
    this.#next = Math.min(2 * wait, LONGEST_WAIT_MS);
    this.#workshop.resume();
    return true;
  }
}
