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

/** Draws small cloths one after the other, so that they never hold up the large one for long. */
export class SmallLooks {
  readonly #api: Api;
  readonly #kept = new Map<string, Promise<HTMLCanvasElement>>();
  #last: Promise<unknown> = Promise.resolve();

  constructor(api: Api) {
    this.#api = api;
  }

  /** @param revision Of the artwork, whatever changes when it does. */
  see(order: LookOrder, revision: string, isWanted: () => boolean): Promise<HTMLCanvasElement> {
    const key = JSON.stringify([order, revision]);
    const known = this.#kept.get(key);
    if (known) return known;
    const coming = this.#last.then(async () => {
      if (!isWanted()) throw new Error('no longer wanted');
      const { look, pixels } = await this.#api.look(order, new AbortController().signal);
      return pictureOf(look, pixels);
    });
    this.#last = coming.catch(() => this.#kept.delete(key));
    this.#kept.set(key, coming);
    if (this.#kept.size > MOST_KEPT) this.#kept.delete(this.#kept.keys().next().value!);
    return coming;
  }
}
