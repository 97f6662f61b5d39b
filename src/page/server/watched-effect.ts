import { Fault } from '../../fault.ts';
import { FileWatch } from '../../host/author/file-watch.ts';
import { openShelf, type ShelvedEffect } from '../../host/plugins/shelf.ts';
import type { Limits } from '../../host/threads/limits.ts';
import type { Desk } from './desk.ts';
import { offerEffect } from './opened/offers.ts';

/** A folder of a plugin that the page follows. The person has agreed that it may run. */
export interface WatchedFolder {
  readonly folder: string;
  /** Which effect of it, where it has several. */
  readonly effect?: string;
  readonly limits?: Partial<Limits>;
}

/** Loads an effect again with every save; what cannot be loaded is told, and the last one goes on. */
export class WatchedEffect {
  readonly #desk: Desk;
  readonly #watched: WatchedFolder;
  /** Names that the effect must not have. */
  readonly #taken: readonly string[];
  readonly #files: FileWatch;
  #isClosed = false;

  private constructor(desk: Desk, watched: WatchedFolder, files: FileWatch) {
    this.#desk = desk;
    this.#watched = watched;
    this.#taken = [...desk.shelf.effects.keys()];
    this.#files = files;
  }

  /** Loads it for the first time; where that fails the page begins without it and says why. */
  static async open(desk: Desk, watched: WatchedFolder): Promise<WatchedEffect> {
    const one = new WatchedEffect(desk, watched, await FileWatch.open(watched.folder));
    const told = await one.#load();
    if (told.kind === 'effect failed') desk.faults.push(told.message);
    return one;
  }

  /** Follows every save until it is closed. */
  async follow(): Promise<void> {
    while (!this.#isClosed) {
      await this.#files.next();
      if (!this.#isClosed) this.#desk.news.tell(await this.#load());
    }
  }

  close(): void {
    this.#isClosed = true;
    this.#files.close();
  }

  async #load() {
    const began = Date.now();
    try {
      const loaded = await this.#loaded();
      const { shelf } = this.#desk;
      this.#desk.shelf = { ...shelf, effects: new Map([...shelf.effects, [loaded.effect.name, loaded]]) };
      this.#desk.watched = loaded.effect.name;
      await this.#files.include(loaded.files, began);
      return { kind: 'effect', offered: offerEffect(loaded) } as const;
    } catch (error) {
      if (!Fault.is(error)) throw error;
      return { kind: 'effect failed', message: error.message } as const;
    }
  }

  async #loaded(): Promise<ShelvedEffect> {
    const { folder, effect, limits } = this.#watched;
    const { effects, faults } = await openShelf([folder], {
      consent: { trust: true },
      builtIn: false,
      limits,
    });
    const found =
      effect === undefined
        ? [...effects.values()]
        : [...effects.values()].filter((one) => one.effect.name === effect);
    if (found.length !== 1) throw faults[0] ?? notOne(folder, [...effects.keys()]);
    if (this.#taken.includes(found[0].effect.name)) throw taken(found[0]);
    return found[0];
  }
}

function notOne(folder: string, names: readonly string[]): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'one effect',
    subject: folder,
    received: names.join(', ') || 'none',
    remedy: 'Say which with --effect.',
  });
}

function taken({ effect, place }: ShelvedEffect): Fault {
  return new Fault({
    kind: 'effect',
    expected: 'a name of its own',
    subject: place,
    received: `"${effect.name}", which an effect of the host has already`,
    remedy: 'Give it another name.',
  });
}
