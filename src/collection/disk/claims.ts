import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { readRegularFile } from '../../picture/regular-file.ts';
import type { Item } from '../plan/item.ts';
import { isClaimName } from './forms.ts';
import { makeFolderInside, moveInside, nameInside, namesInside, removeInside } from './inside.ts';
import { STATE_FOLDER } from './output.ts';
import type { Owner } from './owner.ts';

/** What came of asking for an item. */
export type Claim =
  /** It is ours to make. */
  | { readonly kind: 'ours'; release(): Promise<void> }
  /** Somebody who lives is at it. */
  | { readonly kind: 'theirs' };

const CLAIMS = `${STATE_FOLDER}/claims`;
/** A claim holds an id. */
const MOST_BYTES = 1000;
/** No owner has this name: what cannot be a claim is held by nobody. */
const NOBODY = '?';
/** A folder, something that is no file, or a file too long to be a claim. */
const NO_CLAIM = ['EISDIR', 'ENXIO', 'EFBIG'];

/**
 * Claims on items, so that two runs on one folder do no work twice. A claim is a file that only one can
 * make. Should two come to hold one all the same (a disk without locks, a clock that jumped), both make
 * the same bytes and put them in place whole: time is lost, nothing else.
 */
export class Claims {
  readonly #folder: string;
  readonly #owner: Owner;

  constructor(outputFolder: string, owner: Owner) {
    this.#folder = outputFolder;
    this.#owner = owner;
  }

  async open(): Promise<void> {
    await makeFolderInside(this.#folder, CLAIMS);
    await this.#clearGone();
  }

  /** An owner killed between a picture's record and its release leaves a claim that nobody asks for again. */
  async #clearGone(): Promise<void> {
    for (const file of await namesInside(this.#folder, CLAIMS)) {
      if (!isClaimName(file)) continue;
      const name = `${CLAIMS}/${file}`;
      const holder = await this.#holderOf(name);
      // What was moved out of the way before need not be moved again.
      if (holder === NOBODY) continue;
      if (holder !== undefined && (await this.#owner.isGone(holder))) await this.#setAside(name, holder);
    }
  }

  async ask({ address }: Pick<Item, 'address'>): Promise<Claim> {
    const name = `${CLAIMS}/${address}`;
    if (await this.#make(name)) return this.#ours(name);
    const holder = await this.#holderOf(name);
    if (holder !== undefined) {
      if (!(await this.#owner.isGone(holder))) return { kind: 'theirs' };
      await this.#setAside(name, holder);
    }
    return (await this.#make(name)) ? this.#ours(name) : { kind: 'theirs' };
  }

  #ours(name: string): Claim {
    return {
      kind: 'ours',
      release: async () => {
        if ((await this.#holderOf(name)) === this.#owner.id) await removeInside(this.#folder, name);
      },
    };
  }

  /** A second name for a file that is written already: the claim is never seen half made. */
  #make(name: string): Promise<boolean> {
    return nameInside(this.#folder, this.#owner.nameTag, name, this.#owner.id);
  }

  /**
   * Of several that find a dead claim one moves it away. One that comes late may have moved a living
   * claim of the first; it is put back.
   */
  async #setAside(name: string, holder: string): Promise<void> {
    const aside = `${name.slice(0, CLAIMS.length + 65)}.${randomUUID()}`;
    const moved = await moveInside(this.#folder, name, aside).then(
      () => true,
      (cause: NodeJS.ErrnoException) => {
        if (cause.code === 'ENOENT') return false;
        throw cause;
      },
    );
    if (!moved) return;
    const found = await this.#holderOf(aside);
    // What is no claim is somebody's all the same, and stays under the other name.
    if (found === NOBODY) return;
    if (found !== undefined && found !== holder) await moveInside(this.#folder, aside, name);
    else await removeInside(this.#folder, aside);
  }

  /** @returns None where there is no claim; NOBODY for something else in its place. */
  async #holderOf(name: string): Promise<string | undefined> {
    try {
      return (await readRegularFile(join(this.#folder, name), MOST_BYTES)).toString('utf8');
    } catch (cause) {
      const { code = '' } = cause as NodeJS.ErrnoException;
      return NO_CLAIM.includes(code) ? NOBODY : undefined;
    }
  }
}
