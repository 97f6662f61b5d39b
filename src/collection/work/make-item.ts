import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { forgetFailure } from '../disk/failures.ts';
import { placeInside } from '../disk/output.ts';
import type { Owner } from '../disk/owner.ts';
import { placeItem, strangeFile } from '../disk/place.ts';
import { type Sidecar, type Standing, standingOf } from '../disk/sidecar.ts';
import type { Item } from '../plan/item.ts';
import type { Admitted } from './bench.ts';
import type { Meter } from './pace.ts';
import { renderItem } from './render-item.ts';
import { remedyFor } from './retry.ts';
import type { RunSettings } from './run-settings.ts';

export interface MakeRequest {
  readonly admitted: Admitted;
  /** True where an owner that is gone had begun it. */
  readonly after: boolean;
  readonly meter: Meter;
  readonly attempt: number;
}

/** Tries of what a busy disk refused, and the ms before each further one. */
const BUSY_WAITS = [200, 1_000, 3_000];

/** Makes one item from first to last: tile, texture, picture, sidecar. */
export class ItemMaker {
  readonly #folder: string;
  readonly #owner: Owner;
  readonly #settings: Pick<RunSettings, 'overwrite' | 'verify' | 'signal'>;

  constructor(folder: string, owner: Owner, settings: Pick<RunSettings, 'overwrite' | 'verify' | 'signal'>) {
    this.#folder = folder;
    this.#owner = owner;
    this.#settings = settings;
  }

  /**
   * Makes an item that is claimed; where it turned up in the meantime, that one counts.
   *
   * @throws Fault of any kind; under the item's name there is then what was there before.
   */
  async make(item: Item, request: MakeRequest): Promise<{ sidecar: Sidecar; isNew: boolean }> {
    for (const wait of [...BUSY_WAITS, 0]) {
      try {
        return await this.#makeOnce(item, request);
      } catch (error) {
        if (remedyFor(error) !== 'wait' || wait === 0) throw error;
        await new Promise((resolve) => setTimeout(resolve, wait));
      }
    }
    throw new Error('the last try neither made the item nor failed');
  }

  async #makeOnce(item: Item, request: MakeRequest): Promise<{ sidecar: Sidecar; isNew: boolean }> {
    const standing = await this.#standing(item, request.after);
    if (standing.kind === 'made') return { sidecar: standing.sidecar, isNew: false };
    const { tile, crew, hands, textures, rooms } = request.admitted;
    const from = join(this.#owner.workFolder, `${item.address}.${item.format}`);
    try {
      const opened = await tile.open();
      const rendered = await renderItem(item, opened, from, {
        crew,
        hands,
        textures,
        rooms,
        signal: this.#settings.signal,
      });
      const { meter, attempt } = request;
      const milliseconds = rounded({ ...rendered.milliseconds, share: meter.share(), whole: meter.whole() });
      const placing = { folder: this.#folder, from, standing, milliseconds, attempts: attempt };
      const sidecar = await placeItem(item, rendered, placing);
      await forgetFailure(this.#folder, item);
      return { sidecar, isNew: true };
    } finally {
      await rm(from, { force: true });
      await rm(`${from}.json`, { force: true });
    }
  }

  async #standing(item: Item, after: boolean): Promise<Standing> {
    const target = await placeInside(this.#folder, item.name);
    const standing = await standingOf(target, item.address, this.#settings.verify ?? false);
    // Whoever died at this very item may have put the picture there, and not yet its sidecar.
    if (standing.kind === 'strange' && !after && !this.#settings.overwrite) throw strangeFile(item.name);
    return standing;
  }
}

function rounded(times: Readonly<Record<string, number>>): Record<string, number> {
  return Object.fromEntries(Object.entries(times).map(([name, time]) => [name, Math.round(time * 10) / 10]));
}
