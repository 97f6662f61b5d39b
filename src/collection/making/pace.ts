import { type Item, pixelsOf } from '../plan/item.ts';
import type { RunEvent } from './events.ts';

/** Measures an item while others run beside it. */
export interface Meter {
  /** ms since it began. */
  whole(): number;
  /** Its part of the machine's time: of every moment an equal part with all others under way. */
  share(): number;
  end(): void;
}

/** Below this little of the work the time left would be a guess. */
const LEAST_SHARE = 0.01;

/** Keeps the pace of a run: how far it is, how long it still takes, and what each item took. */
export class Pace {
  readonly #say: (event: RunEvent) => void;
  readonly #renders: number;
  readonly #pixels: number;
  #donePixels = 0;
  #doneRenders = 0;
  #started = performance.now();
  /** The time of an item that was always there. */
  #clock = 0;
  #last = performance.now();
  #busy = 0;

  constructor(missing: readonly Item[], say: (event: RunEvent) => void) {
    this.#say = say;
    this.#renders = missing.length;
    this.#pixels = missing.reduce((sum, item) => sum + pixelsOf(item), 0);
  }

  begin(made: number): void {
    this.#started = performance.now();
    this.#say({ event: 'begin', renders: this.#renders, made, megapixels: this.#pixels / 1e6 });
  }

  start(_item: Item): Meter {
    this.#tick();
    this.#busy++;
    const [began, clock] = [performance.now(), this.#clock];
    let isOver = false;
    return {
      whole: () => performance.now() - began,
      share: () => {
        this.#tick();
        return this.#clock - clock;
      },
      end: () => {
        if (isOver) return;
        isOver = true;
        this.#tick();
        this.#busy--;
      },
    };
  }

  done(item: Item): void {
    this.#donePixels += pixelsOf(item);
    this.#doneRenders++;
    const share = this.#pixels > 0 ? this.#donePixels / this.#pixels : 1;
    const seconds = (performance.now() - this.#started) / 1000;
    this.#say({
      event: 'progress',
      done: this.#doneRenders,
      renders: this.#renders,
      share,
      secondsLeft: share >= LEAST_SHARE ? (seconds / share) * (1 - share) : undefined,
    });
  }

  #tick(): void {
    const now = performance.now();
    if (this.#busy > 0) this.#clock += (now - this.#last) / this.#busy;
    this.#last = now;
  }
}
