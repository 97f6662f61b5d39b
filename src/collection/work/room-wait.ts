import { pause } from './pause.ts';
import type { Workshop } from './workshop.ts';

/** Before looking again for room on a full disk: the first time, and at most, ms. */
const FIRST_WAIT_MS = 500;
const LONGEST_WAIT_MS = 30_000;
const ROOM_SECONDS = 15;

/** Waits for room on a full disk, once for all who need it. */
export class RoomWait {
  readonly #workshop: Workshop;
  readonly #whole: number;
  readonly #signal: AbortSignal;
  #left: number;
  #next = FIRST_WAIT_MS;
  #waiting?: Promise<boolean>;

  /** @param seconds How long to wait in all, before there is room again. */
  constructor(workshop: Workshop, signal: AbortSignal, seconds = ROOM_SECONDS) {
    this.#workshop = workshop;
    this.#signal = signal;
    this.#whole = seconds * 1000;
    this.#left = this.#whole;
  }

  /** Waits a while. @returns False where it has been waited long enough, or the work was stopped. */
  wait(): Promise<boolean> {
    this.#waiting ??= this.#waitOnce().finally(() => {
      this.#waiting = undefined;
    });
    return this.#waiting;
  }

  /** There was room. */
  found(): void {
    this.#left = this.#whole;
    this.#next = FIRST_WAIT_MS;
  }

  async #waitOnce(): Promise<boolean> {
    if (this.#left <= 0) return false;
    const wait = Math.min(this.#next, this.#left);
    this.#workshop.say({ event: 'waiting', words: 'the disk is full; this worker waits for room' });
    await pause(wait, this.#signal);
    if (this.#signal.aborted) return false;
    this.#left -= wait;
    this.#next = Math.min(2 * wait, LONGEST_WAIT_MS);
    this.#workshop.resume();
    return true;
  }
}
