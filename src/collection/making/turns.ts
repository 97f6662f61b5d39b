import type { Item } from '../plan/item.ts';
import type { Outcome, Workshop } from './workshop.ts';

/** Lets items that come from outside into a workshop as there is room, first come first served. */
export class Turns {
  /** How many may ask at once. */
  readonly count: number;
  readonly #workshop: Workshop;
  #busy = 0;
  /** Somebody waits to be alone, or is. */
  #isClosed = false;
  readonly #waiting: (() => void)[] = [];

  constructor(workshop: Workshop) {
    this.#workshop = workshop;
    this.count = workshop.means.places;
  }

  async take(item: Item, alone: boolean): Promise<Outcome> {
    while (this.#isClosed) await this.#change();
    if (alone) this.#isClosed = true;
    try {
      for (;;) {
        if (alone ? this.#busy === 0 : !this.#isClosed) {
          const admitted = this.#workshop.means.admit(item, this.#busy, this.count, alone);
          if (admitted) return await this.#attempt(item, alone, admitted);
          if (this.#busy === 0) {
            await this.#workshop.refuse(item);
            return 'done';
          }
        }
        await this.#change();
      }
    } finally {
      if (alone) this.#isClosed = false;
      this.#tell();
    }
  }

  async #attempt(item: Item, alone: boolean, admitted: Parameters<Workshop['attempt']>[2]): Promise<Outcome> {
    this.#busy++;
    try {
      return await this.#workshop.attempt(item, alone, admitted);
    } finally {
      this.#busy--;
      this.#tell();
    }
  }

  #change(): Promise<void> {
    return new Promise((resolve) => this.#waiting.push(resolve));
  }

  #tell(): void {
    for (const resolve of this.#waiting.splice(0)) resolve();
  }
}
