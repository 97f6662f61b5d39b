import { type FSWatcher, watch } from 'node:fs';
import { readdir, stat } from 'node:fs/promises';
import { dirname, extname, isAbsolute, join, relative, resolve } from 'node:path';

/** Editors save in several steps; this long after the last of them it is over, ms. */
const SETTLE_MS = 40;

/** Some file systems tell nothing of changes; this often they are looked at all the same, ms. */
const LOOK_MS = 1000;

const ENDINGS = ['.ts', '.mts', '.js', '.mjs', '.json'];

/** Waits for changes of the sources in a folder, and of other files that it is told of. */
export class FileWatch {
  readonly #folder: string;
  readonly #watchers = new Map<string, FSWatcher>();
  #others: readonly string[] = [];
  #seen = new Map<string, string>();
  #wake: () => void = () => {};
  #hasEvent = false;

  /** Opens a watch; what has changed counts from here. */
  static async open(folder: string): Promise<FileWatch> {
    const files = new FileWatch(resolve(folder));
    files.#seen = await files.#look();
    return files;
  }

  private constructor(folder: string) {
    this.#folder = folder;
  }

  /**
   * Watches these files as well, wherever they lie.
   *
   * @param since When they were read, ms since 1970: one that is younger counts as changed.
   */
  async include(files: readonly string[], since: number): Promise<void> {
    const fresh = files.filter((file) => !this.#others.includes(file) && !this.#isOwn(file));
    const marks = await Promise.all(fresh.map((file) => fingerprint(file, since)));
    for (const [index, file] of fresh.entries()) {
      this.#seen.set(file, marks[index]);
      this.#listen(dirname(file));
    }
    this.#others = [...this.#others, ...fresh];
  }

  /** The files that have changed since the last call: waits until there are some. */
  async next(): Promise<string[]> {
    for (;;) {
      const now = await this.#look();
      // A file included while the look was under way has not been looked at.
      for (const file of this.#others) if (!now.has(file)) now.set(file, this.#seen.get(file)!);
      const names = new Set([...now.keys(), ...this.#seen.keys()]);
      const changed = [...names].filter((name) => now.get(name) !== this.#seen.get(name)).sort();
      this.#seen = now;
      if (changed.length > 0) return changed;
      await this.#event();
      await new Promise((done) => setTimeout(done, SETTLE_MS));
    }
  }

  close(): void {
    for (const watcher of this.#watchers.values()) watcher.close();
    this.#watchers.clear();
  }

  /** True for what is found in the folder itself. */
  #isOwn(file: string): boolean {
    const way = relative(this.#folder, file);
    return !/(^|[\\/])(\.|node_modules)/.test(way) && !isAbsolute(way) && isSource(file);
  }

  /** Waits for the next event; one that came since the last wait counts. */
  async #event(): Promise<void> {
    if (!this.#hasEvent) {
      await new Promise<void>((done) => {
        const timer = setTimeout(done, LOOK_MS);
        this.#wake = () => {
          clearTimeout(timer);
          done();
        };
      });
    }
    this.#hasEvent = false;
  }

  async #look(): Promise<Map<string, string>> {
    const files = [...(await this.#sources(this.#folder)), ...this.#others];
    return new Map(await Promise.all(files.map(async (file) => [file, await fingerprint(file)] as const)));
  }

  async #sources(folder: string): Promise<string[]> {
    this.#listen(folder);
    const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
    const found = await Promise.all(
      entries
        .filter(({ name }) => !name.startsWith('.') && name !== 'node_modules')
        .map(async (entry) => {
          const path = join(folder, entry.name);
          if (entry.isDirectory()) return this.#sources(path);
          return isSource(entry.name) ? [path] : [];
        }),
    );
    return found.flat();
  }

  #listen(folder: string): void {
    if (this.#watchers.has(folder)) return;
    try {
      const watcher = watch(folder, () => {
        this.#hasEvent = true;
        this.#wake();
      });
      this.#watchers.set(folder, watcher);
      watcher.on('error', () => this.#forget(folder));
    } catch {
      // No watch to be had (too many, or none on this file system): the look every second is left.
    }
  }

  #forget(folder: string): void {
    this.#watchers.get(folder)?.close();
    this.#watchers.delete(folder);
  }
}

function isSource(name: string): boolean {
  return ENDINGS.includes(extname(name)) && !/\.(test|d)\.m?ts$/.test(name);
}

async function fingerprint(file: string, since = Number.POSITIVE_INFINITY): Promise<string> {
  const facts = await stat(file).catch(() => undefined);
  if (facts && facts.mtimeMs >= since) return 'younger';
  return facts ? `${facts.mtimeMs} ${facts.size} ${facts.ino}` : 'gone';
}
