import { join } from 'node:path';
import { Fault } from '../../../fault.ts';
import { FileWatch } from '../../../host/author/file-watch.ts';
import type { Desk } from '../desk.ts';

/** ms between looks for pictures that were opened meanwhile. */
const LOOK_MS = 1000;

/** Notices artwork that changes on disk while it is on the page, and tells of it. */
export class ArtworkWatch {
  readonly #desk: Desk;
  #files?: FileWatch;
  #timer?: NodeJS.Timeout;
  #isClosed = false;

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  begin(): void {
    // Without it the page works on; only changes on disk go unnoticed.
    this.#follow().catch((error) => console.error(`tenter: artwork is no longer watched: ${error.message}`));
  }

  close(): void {
    this.#isClosed = true;
    clearInterval(this.#timer);
    this.#files?.close();
  }

  async #follow(): Promise<void> {
    const { artworks, folder } = this.#desk;
    // A folder that is never made: only the pictures themselves are watched.
    const files = await FileWatch.open(join(folder.home, '.tenter', 'nothing'));
    this.#files = files;
    const include = () => files.include(artworks.paths, Number.POSITIVE_INFINITY);
    await include();
    this.#timer = setInterval(() => void include().catch(() => {}), LOOK_MS);
    this.#timer.unref();
    while (!this.#isClosed) {
      const changed = await files.next();
      for (const path of changed) if (!this.#isClosed) await this.#again(path);
    }
  }

  async #again(path: string): Promise<void> {
    const { artworks, masks, news } = this.#desk;
    masks.forget();
    const id = artworks.idOf(path);
    if (id === undefined) return;
    try {
      news.tell({ kind: 'tile', tile: await artworks.again(id) });
    } catch (error) {
      if (!Fault.is(error)) throw error;
      news.tell({ kind: 'tile lost', id, message: error.message });
    }
  }
}
