import { dirname, resolve } from 'node:path';
import { sha256OfFile } from '../../picture/file-hash.ts';
import type { Sidecar } from '../disk/sidecar.ts';
import type { Inputs } from '../plan/identity.ts';
import type { Original } from './swatch.ts';

/** The artwork at `path` as a render with these inputs was made from it. */
export function originalOf(path: string, { tile, repeat }: Inputs): Original {
  const { layout, widthMm, heightMm } = repeat;
  return {
    key: [tile.sha256, layout, widthMm, heightMm].join(' '),
    path,
    picture: { widthPx: tile.width, heightPx: tile.height, layout, widthMm, heightMm },
  };
}

/** How many folders above that of a run may be the collection's. */
const LEVELS = 6;

/**
 * Finds the artwork of renders whose collection file is not at hand. A record gives its path from the
 * collection's folder, which is mostly one of those above the run's; its hash tells whether it is the one.
 */
export class OriginalFinder {
  readonly #folders: readonly string[];
  readonly #found = new Map<string, Promise<string | undefined>>();

  /** @param folder Of the run, absolute. */
  constructor(folder: string) {
    const folders = [folder];
    while (folders.length <= LEVELS) folders.push(dirname(folders.at(-1)!));
    this.#folders = [...new Set(folders)];
  }

  /** None where it lies elsewhere, or is another by now. */
  async find({ tile, inputs }: Pick<Sidecar, 'tile' | 'inputs'>): Promise<Original | undefined> {
    // A report by other hands need not say where its tiles were.
    if (typeof tile !== 'string' || !inputs.tile || !inputs.repeat) return undefined;
    const { sha256 } = inputs.tile;
    const key = `${sha256} ${tile}`;
    const searching = this.#found.get(key) ?? this.#search(tile, sha256);
    this.#found.set(key, searching);
    const path = await searching;
    return path === undefined ? undefined : originalOf(path, inputs);
  }

  async #search(tile: string, sha256: string): Promise<string | undefined> {
    for (const folder of this.#folders) {
      const path = resolve(folder, tile);
      const hash = await sha256OfFile(path).catch(() => undefined);
      if (hash === sha256) return path;
    }
    return undefined;
  }
}
