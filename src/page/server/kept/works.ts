import { readdir, rename, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { Fault } from '../../../fault.ts';
import { checkShape } from '../../../host/files/json-file.ts';
import { readTextFile } from '../../../host/files/text-file.ts';
import type { KeptWork } from '../../words/begin.ts';
import { keptWorkSchema } from '../shapes/work.ts';
import type { SessionFolder } from './session-folder.ts';

/** Bytes of one work with all its pages of undo. */
export const MOST_WORK_BYTES = 64e6;

/** What became of a work that a page sent: kept, or refused for another page had sent one meanwhile. */
export type Put = { readonly isKept: true } | { readonly isKept: false; readonly kept: KeptWork };

/** Works under way, each in a file of its own. */
export class Works {
  readonly #folder: SessionFolder;
  readonly #known = new Map<string, { readonly kept: KeptWork; readonly mark: string }>();
  /** Works are written one after another, so that no two writings cross. */
  #turn: Promise<unknown> = Promise.resolve();

  constructor(folder: SessionFolder) {
    this.#folder = folder;
  }

  /**
   * All works that are kept, the last one worked on first.
   *
   * @param tell Told of those that cannot be read; they are set aside and not deleted.
   */
  async readAll(tell: (words: string) => void): Promise<KeptWork[]> {
    const names = await readdir(this.#folder.works).catch(() => []);
    const found: { readonly kept: KeptWork; readonly at: number }[] = [];
    for (const name of names.filter((one) => one.endsWith('.json'))) {
      const path = join(this.#folder.works, name);
      try {
        const kept = await this.#read(name.slice(0, -'.json'.length));
        if (kept) found.push({ kept, at: (await stat(path)).mtimeMs });
      } catch (error) {
        tell(await setAside(path, error));
      }
    }
    return found.sort((a, b) => b.at - a.at).map(({ kept }) => kept);
  }

  /** A work that was begun and that nobody has touched yet: it is not written. */
  begin(kept: KeptWork): void {
    this.#known.set(kept.id, { kept, mark: 'none' });
  }

  /** What is kept of a work now; none where it cannot be read any more. */
  async find(id: string): Promise<KeptWork | undefined> {
    // A page that is reloaded sends its last work as it goes, and asks for it as it comes.
    await this.#turn;
    return this.#read(id).catch(() => this.#known.get(id)?.kept);
  }

  /** Keeps a work, where it follows the one that is kept. @throws Fault (output) where it cannot be written. */
  put(sent: KeptWork): Promise<Put> {
    const done = this.#turn.then(() => this.#put(sent));
    this.#turn = done.catch(() => {});
    return done;
  }

  async #put(sent: KeptWork): Promise<Put> {
    const kept = await this.#read(sent.id);
    if (kept ? sent.revision !== kept.revision + 1 : sent.revision !== 1) {
      return kept ? { isKept: false, kept } : { isKept: false, kept: { ...sent, revision: 0 } };
    }
    const path = this.#path(sent.id);
    await this.#folder.write(path, JSON.stringify(sent));
    this.#known.set(sent.id, { kept: sent, mark: await markOf(path) });
    return { isKept: true };
  }

  /** What is kept of it: read again where another server has written it meanwhile. */
  async #read(id: string): Promise<KeptWork | undefined> {
    const path = this.#path(id);
    const mark = await markOf(path);
    const known = this.#known.get(id);
    if (known?.mark === mark || mark === 'none') return known?.kept;
    const text = await readTextFile(path, { expected: 'a work of the page', most: MOST_WORK_BYTES });
    const kept = checkShape(JSON.parse(text), path, 'a work of the page', keptWorkSchema);
    if (kept.id !== id) throw new Error(`it says that it is the work ${kept.id}`);
    this.#known.set(id, { kept, mark });
    return kept;
  }

  #path(id: string): string {
    return join(this.#folder.works, `${id}.json`);
  }
}

async function markOf(path: string): Promise<string> {
  const facts = await stat(path).catch(() => undefined);
  return facts ? `${facts.mtimeMs} ${facts.size} ${facts.ino}` : 'none';
}

async function setAside(path: string, error: unknown): Promise<string> {
  const reason = Fault.is(error) ? error.received : (error as Error).message;
  const aside = `${path.slice(0, -'.json'.length)}.broken-${Date.now()}`;
  const isAside = await rename(path, aside).then(
    () => true,
    () => false,
  );
  const where = isAside ? `It was set aside as ${aside}` : 'It was left where it is';
  return `A work that was kept cannot be read: ${path} (${reason}). ${where}; nothing of it was deleted.`;
}
