import { forgetFailure } from '../disk/failures.ts';
import { removeInside } from '../disk/inside.ts';
import { placeInside } from '../disk/output.ts';
import type { Owner } from '../disk/owner.ts';
import { placeItem } from '../disk/place.ts';
import { type Sidecar, sidecarPath, standingOf } from '../disk/sidecar.ts';
import type { Item } from '../plan/item.ts';
import type { Admitted } from './means.ts';
import type { Meter } from './pace.ts';
import { renderItem } from './render-item.ts';
import { remedyFor } from './retry.ts';
import type { RunSettings } from './run-settings.ts';

export interface MakeRequest {
  readonly admitted: Admitted;
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
    const { overwrite, verify = false, signal } = this.#settings;
    const target = await placeInside(this.#folder, item.name);
    const standing = await standingOf(target, item.address, verify);
    if (standing.kind === 'made') return { sidecar: standing.sidecar, isNew: false };
    const { tile, pictures, crew, hands, textures, lent } = request.admitted;
    const from = `${this.#owner.workFolder}/${item.address}.${item.format}`;
    const path = await placeInside(this.#folder, from);
    try {
      const opened = await tile.open();
      const rendered = await renderItem(item, opened, path, {
        crew,
        hands,
        textures,
        pictures: pictures.files,
        lent,
        signal,
      });
      const { meter, attempt } = request;
      const milliseconds = rounded({ ...rendered.milliseconds, share: meter.share(), whole: meter.whole() });
      const placing = { folder: this.#folder, from, standing, overwrite, milliseconds, attempts: attempt };
      const sidecar = await placeItem(item, rendered, placing);
      await forgetFailure(this.#folder, item);
      return { sidecar, isNew: true };
    } finally {
      await removeInside(this.#folder, from);
      await removeInside(this.#folder, sidecarPath(from));
    }
  }
}

function rounded(times: Readonly<Record<string, number>>): Record<string, number> {
  return Object.fromEntries(Object.entries(times).map(([name, time]) => [name, Math.round(time * 10) / 10]));
}
