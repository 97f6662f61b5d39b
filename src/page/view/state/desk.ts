import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { Begin, KeptWork, OfferedEffect, OpenedTile } from '../../words/begin.ts';
import type { SaveOrder, Saving } from '../../words/save.ts';
import type { Work } from '../../words/work.ts';
import { changed, redone, type Story, undone } from './undo.ts';

/** All that the page knows; its parts read it and change it here. */
export class Desk {
  readonly begin: Begin;
  readonly tiles: Signal<readonly OpenedTile[]>;
  readonly effects: Signal<ReadonlyMap<string, OfferedEffect>>;
  readonly story: Signal<Story>;
  /** The work that is open, by its name on the server. */
  readonly id: Signal<string>;
  readonly savings: Signal<readonly Saving[]> = signal([]);
  /** What was asked to be saved, by the name of the saving: asked again where it may replace what is there. */
  readonly orders = new Map<string, SaveOrder>();
  /** What the person should read now; goes when it is no longer so. */
  readonly troubles: Signal<ReadonlyMap<string, string>> = signal(new Map());
  readonly work: ReadonlySignal<Work>;
  readonly tile: ReadonlySignal<OpenedTile | undefined>;
  #joined?: string;
  #joinedAt = 0;

  constructor(begin: Begin, first: KeptWork) {
    this.begin = begin;
    this.tiles = signal(begin.tiles);
    this.effects = signal(new Map(begin.effects.map((offered) => [offered.effect.name, offered])));
    this.story = signal(first);
    this.id = signal(first.id);
    this.work = computed(() => this.story.value.work);
    this.tile = computed(() => this.tiles.value.find(({ id }) => id === this.work.value.tile));
  }

  /** @param joins Changes with the same word that follow each other soon are undone as one. */
  change(edit: (work: Work) => Work, joins?: string): void {
    const { work } = this.story.value;
    const next = edit(work);
    if (next === work) return;
    const now = performance.now();
    const goesOn = joins !== undefined && joins === this.#joined && now - this.#joinedAt < JOINED_MS;
    this.story.value = changed(this.story.value, next, goesOn);
    this.#joined = joins;
    this.#joinedAt = now;
  }

  undo(): void {
    this.#joined = undefined;
    this.story.value = undone(this.story.value);
  }

  redo(): void {
    this.#joined = undefined;
    this.story.value = redone(this.story.value);
  }

  /** A picture was opened, or one again that was opened before. */
  show(tile: OpenedTile): void {
    this.tiles.value = [...this.tiles.value.filter(({ id }) => id !== tile.id), tile];
  }

  /** Another work is taken up. */
  takeUp({ id, work, past, future }: KeptWork): void {
    this.#joined = undefined;
    this.id.value = id;
    this.story.value = { work, past, future };
  }

  /** @param words None: it is over. */
  trouble(about: string, words?: string): void {
    if (this.troubles.value.get(about) === words) return;
    const troubles = new Map(this.troubles.value);
    if (words === undefined) troubles.delete(about);
    else troubles.set(about, words);
    this.troubles.value = troubles;
  }
}

const JOINED_MS = 1500;
