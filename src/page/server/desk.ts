import type { Shelf } from '../../host/plugins/shelf.ts';
import { Sight } from '../../host/sight/sight.ts';
import { Crew } from '../../host/threads/crew.ts';
import type { Limits } from '../../host/threads/limits.ts';
import type { Begin, KeptWork, OfferedRecipe } from '../words/begin.ts';
import { SessionFolder } from './kept/session-folder.ts';
import { Works } from './kept/works.ts';
import { KeptMasks } from './looks/masks.ts';
import { NewsDesk } from './news-desk.ts';
import { Artworks } from './opened/artworks.ts';
import { offerEffect } from './opened/offers.ts';

/** What a server is opened with. */
export interface DeskSettings {
  readonly shelf: Shelf;
  /** The places of plugins as the person named them, for commands. */
  readonly plugins: readonly string[];
  /** True where the person vouches for them. */
  readonly trust?: boolean;
  readonly home: string;
  readonly version: string;
  readonly limits?: Partial<Limits>;
  readonly workers?: number;
}

/** All that the server has before it: what was opened, what is under work, and who renders it. */
export class Desk {
  shelf: Shelf;
  /** Options that load the same plugins, and options of all renders, as commands take them. */
  readonly pluginFlags: readonly string[];
  readonly flags: readonly string[];
  readonly trust: boolean;
  readonly folder: SessionFolder;
  readonly works: Works;
  readonly news = new NewsDesk();
  readonly sight: Sight;
  readonly masks = new KeptMasks();
  readonly #crew: Crew;
  readonly artworks = new Artworks((tile) => this.news.tell({ kind: 'tile', tile }));
  readonly recipes: OfferedRecipe[] = [];
  /** Pages of collections, by the name of their file. */
  readonly sheets = new Map<string, string>();
  readonly faults: string[] = [];
  /** That the page begins with, the first of them shown. */
  readonly begun: string[] = [];
  watched?: string;
  readonly #version: string;

  constructor(settings: DeskSettings) {
    const { shelf, plugins, trust = false, home, version, limits = {}, workers } = settings;
    this.shelf = shelf;
    this.trust = trust;
    this.pluginFlags = plugins.flatMap((place) => ['--plugins', place]);
    this.flags = [...this.pluginFlags, ...limitFlags(limits)];
    this.folder = new SessionFolder(home);
    this.works = new Works(this.folder);
    this.#crew = new Crew(workers, limits);
    this.sight = new Sight({ crew: this.#crew });
    this.#version = version;
    this.faults.push(...shelf.faults.map(({ message }) => message));
  }

  /** What a page begins with: also one that was loaded again, or a second. */
  async begin(): Promise<Begin> {
    const works: KeptWork[] = [];
    for (const id of this.begun) {
      const kept = await this.works.find(id);
      if (kept) works.push(kept);
    }
    return {
      version: this.#version,
      effects: [...this.shelf.effects.values()].map(offerEffect),
      recipes: this.recipes,
      tiles: this.artworks.tiles,
      works,
      faults: this.faults,
      watched: this.watched,
      folder: this.folder.home,
      collections: [...this.sheets.keys()],
    };
  }

  /** A work that a page begins; those that load the page later are shown it as well. */
  keep(id: string): void {
    if (!this.begun.includes(id)) this.begun.push(id);
  }

  async close(): Promise<void> {
    await this.sight.close();
    await this.#crew.close();
  }
}

function limitFlags({ seconds, megabytes }: Partial<Limits>): string[] {
  return [
    ...(seconds === undefined ? [] : ['--time-limit', String(seconds)]),
    ...(megabytes === undefined ? [] : ['--memory-limit', String(megabytes)]),
  ];
}
