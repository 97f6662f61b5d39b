import { randomUUID } from 'node:crypto';
import { link, mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Item } from '../plan/item.ts';
import { STATE_FOLDER } from './output.ts';
import type { Owner } from './owner.ts';

/** What came of asking for an item. */
export type Claim =
  /** It is ours to make. `after` is true where an owner that is gone had begun it. */
  | { readonly kind: 'ours'; readonly after: boolean; release(): Promise<void> }
  /** Somebody who lives is at it. */
  | { readonly kind: 'theirs' };

/**
 * Claims on items, so that two runs on one folder do no work twice. A claim is a file that only one can
 * make. Should two come to hold one all the same (a disk without locks, a clock that jumped), both make
 * the same bytes and put them in place whole: time is lost, nothing else.
 */
export class Claims {
  readonly #folder: string;
  readonly #owner: Owner;

  constructor(outputFolder: string, owner: Owner) {
    this.#folder = join(outputFolder, STATE_FOLDER, 'claims');
    this.#owner = owner;
  }

  async open(): Promise<void> {
    await mkdir(this.#folder, { recursive: true });
    await this.#clearGone();
  }

  /** An owner killed between a picture's record and its release leaves a claim that nobody asks for again. */
  async #clearGone(): Promise<void> {
    for (const name of await readdir(this.#folder)) {
      const path = join(this.#folder, name);
      const holder = await holderOf(path);
      if (holder !== undefined && (await this.#owner.isGone(holder))) await this.#setAside(path, holder);
    }
  }

  async ask({ address }: Pick<Item, 'address'>): Promise<Claim> {
    const path = join(this.#folder, address);
    if (await this.#make(path)) return this.#ours(path, false);
    const holder = await holderOf(path);
    if (holder === undefined) return (await this.#make(path)) ? this.#ours(path, false) : { kind: 'theirs' };
    if (!(await this.#owner.isGone(holder))) return { kind: 'theirs' };
    await this.#setAside(path, holder);
    return (await this.#make(path)) ? this.#ours(path, true) : { kind: 'theirs' };
  }

  #ours(path: string, after: boolean): Claim {
    return {
      kind: 'ours',
      after,
      release: async () => {
        if ((await holderOf(path)) === this.#owner.id) await rm(path, { force: true });
      },
    };
  }

  /** A second name for a file that is written already: the claim is never seen half made. */
  async #make(path: string): Promise<boolean> {
    const refusal = await link(this.#owner.nameTag, path).catch((error: NodeJS.ErrnoException) => error);
    if (!refusal) return true;
    if (refusal.code === 'EEXIST') return false;
    return writeFile(path, this.#owner.id, { flag: 'wx' }).then(
      () => true,
      (error: NodeJS.ErrnoException) => {
        if (error.code === 'EEXIST') return false;
        throw error;
      },
    );
  }

  /**
   * Of several that find a dead claim one moves it away. One that comes late may have moved a living
   * claim of the first; it is put back.
   */
  async #setAside(path: string, holder: string): Promise<void> {
    const aside = `${path}.${randomUUID()}`;
    const moved = await rename(path, aside).then(
      () => true,
      () => false,
    );
    if (!moved) return;
    const found = await holderOf(aside);
    if (found !== undefined && found !== holder) await rename(aside, path);
    else await rm(aside, { force: true });
  }
}

async function holderOf(path: string): Promise<string | undefined> {
  return readFile(path, 'utf8').catch(() => undefined);
}
