import type { LookOrder } from '../../words/look.ts';
import type { Laying, Work } from '../../words/work.ts';
import type { Api } from '../api.ts';
import { pictureOf } from '../state/looks.ts';

/** So many small cloths are kept. */
const MOST_KEPT = 160;

/** A look of a laying over the design of a work, small. */
export function smallOrder(
  { tile, ground, layout, size, resists }: Work,
  laying: Laying,
  sidePx: number,
  sideMm?: number,
): LookOrder {
  const steps = laying.steps.filter(({ held }) => !held);
  const side = sideMm ?? Math.max(size.width, size.height);
  // In the middle of the tile, where most designs have something.
  const left = Math.max(0, (size.width - side) / 2);
  const top = Math.max(0, (size.height - side) / 2);
  const part = sideMm === undefined ? undefined : { left, top, width: side, height: side };
  return {
    ...{ tile, ground, layout, size, resists, part },
    laying: { ...laying, steps },
    density: sidePx / side,
    quality: 'sketch',
  };
}

interface Waiting {
  readonly order: LookOrder;
  /** Those that cost least come first. */
  readonly cost: number;
  readonly isWanted: () => boolean;
  readonly settle: (picture: Promise<HTMLCanvasElement>) => void;
}

/** Draws small cloths one after the other, so that they never hold up the large one for long. */
export class SmallLooks {
  readonly #api: Api;
  readonly #isBusy: () => boolean;
  readonly #kept = new Map<string, Promise<HTMLCanvasElement>>();
  #waiting: Waiting[] = [];
  #isDrawing = false;

  /** @param isBusy Whether the large cloth is being drawn: the small ones then wait. */
  constructor(api: Api, isBusy: () => boolean) {
    this.#api = api;
    this.#isBusy = isBusy;
  }

  /**
   * @param revision Of the artwork, whatever changes when it does.
   * @returns Fails where it is no longer wanted when its turn comes.
   */
  see(
    order: LookOrder,
    { revision, cost, isWanted }: Pick<Waiting, 'cost' | 'isWanted'> & { readonly revision: string },
  ): Promise<HTMLCanvasElement> {
    const key = JSON.stringify([order, revision]);
    const known = this.#kept.get(key);
    if (known) return known;
    const coming = new Promise<HTMLCanvasElement>((settle) => {
      this.#waiting.push({ order, cost, isWanted, settle });
    });
    coming.catch(() => this.#kept.delete(key));
    this.#kept.set(key, coming);
    if (this.#kept.size > MOST_KEPT) this.#kept.delete(this.#kept.keys().next().value!);
    void this.#work();
    return coming;
  }

  async #work(): Promise<void> {
    if (this.#isDrawing) return;
    this.#isDrawing = true;
    // All that is asked for in one go is in line before the first is chosen.
    await pause(0);
    for (let next = this.#next(); next; next = this.#next()) {
      while (this.#isBusy()) await pause(BUSY_MS);
      const drawn = next.isWanted() ? this.#draw(next.order) : Promise.reject(new Error('no longer wanted'));
      next.settle(drawn);
      await drawn.catch(() => {});
    }
    this.#isDrawing = false;
  }

  #next(): Waiting | undefined {
    const least = Math.min(...this.#waiting.map(({ cost }) => cost));
    const index = this.#waiting.findIndex(({ cost }) => cost === least);
    return this.#waiting.splice(index, 1)[0];
  }

  async #draw(order: LookOrder): Promise<HTMLCanvasElement> {
    const { look, pixels } = await this.#api.look(order, new AbortController().signal);
    return pictureOf(look, pixels);
  }
}

const BUSY_MS = 60;

function pause(ms: number): Promise<void> {
  return new Promise((done) => setTimeout(done, ms));
}
