import type { Frame } from '../../colour/frame.ts';
import { misfitWarning, recolourFrame } from '../../host/ink/recolour-frame.ts';
import type { Hands } from '../../host/threads/hands.ts';
import { readPicture } from '../../picture/index.ts';
import { resampleNotes } from '../../render/resample.ts';
import { formatLayout } from '../../repeat/layout.ts';
import { inShort, type Verdict } from '../disk/sidecar.ts';
import { whileUnchanged } from '../disk/steady.ts';
import type { Item } from '../plan/item.ts';
import type { Kept, Memory } from './memory.ts';
import { tileBytes } from './need.ts';

/** A tile as items are rendered from it. Its pixels are everybody's: nobody writes into them. */
export interface OpenTile {
  readonly frame: Frame;
  readonly notes: readonly string[];
  readonly seams: Verdict;
}

interface Entry extends Kept {
  users: number;
  opened?: Promise<OpenTile>;
}

/** A claim on a tile's pixels: they stay until it is closed. */
export interface TileTicket {
  /** @throws Fault (input) for a picture that turns out to be damaged. */
  open(): Promise<OpenTile>;
  close(): void;
}

/** Decodes every tile once, and keeps it while there is room. */
export class TileStore {
  readonly #memory: Memory;
  readonly #hands: Hands;
  readonly #entries = new Map<string, Entry>();
  /** Verdicts are small, and stay when the pixels go. */
  readonly #seams = new Map<string, Promise<Verdict>>();
  readonly counts = { asked: 0, decoded: 0, checked: 0 };

  constructor(memory: Memory, hands: Hands) {
    this.#memory = memory;
    this.#hands = hands;
  }

  /** Bytes that opening an item's tile will take: none where it is at hand. */
  bytesFor(item: Item): number {
    return this.#entries.has(keyOf(item)) ? 0 : tileBytes(item);
  }

  /** Keeps the tile of an item from being given up, where it is at hand. @returns Ends that. */
  hold(item: Item): () => void {
    const entry = this.#entries.get(keyOf(item));
    if (!entry) return () => {};
    entry.users++;
    return () => void entry.users--;
  }

  /** Reserves the tile of an item, whose memory must have been taken (see `bytesFor`). */
  reserve(item: Item): TileTicket {
    const entry = this.#entries.get(keyOf(item)) ?? this.#add(item);
    entry.users++;
    this.#memory.keep(entry);
    return { open: () => this.#open(entry, item), close: () => void entry.users-- };
  }

  #add(item: Item): Entry {
    const key = keyOf(item);
    const entry: Entry = {
      users: 0,
      bytes: tileBytes(item),
      get isUsed() {
        return this.users > 0;
      },
      drop: () => this.#entries.delete(key),
    };
    this.#entries.set(key, entry);
    return entry;
  }

  #open(entry: Entry, item: Item): Promise<OpenTile> {
    this.counts.asked++;
    if (entry.opened) return entry.opened;
    const opened = this.#decode(keyOf(item), item);
    entry.opened = opened;
    // A picture that could not be read is asked for again by the next item.
    opened.catch(() => {
      entry.opened = undefined;
    });
    return opened;
  }

  async #decode(key: string, item: Item): Promise<OpenTile> {
    this.counts.decoded++;
    const picture = await whileUnchanged([item.tile], () => readPicture(item.tile.path));
    const inked = await this.#inColourway(picture, item);
    const { frame, notes } = await this.#onGrid(picture, item);
    const seams = await this.#seamsOf(key, frame, item);
    return { frame, notes: [...picture.notes, ...inked, ...notes], seams };
  }

  /** @returns What there is to say of it. */
  async #inColourway(picture: Frame, { inks }: Item): Promise<string[]> {
    if (!inks) return [];
    const misfit = misfitWarning(picture, inks);
    await recolourFrame(picture, inks);
    const { colourway, card } = inks;
    const words = colourway
      ? [`recoloured to the colourway "${colourway.name}" of the card "${card.name}"`]
      : [];
    return [...words, ...(misfit === undefined ? [] : [misfit])];
  }

  async #onGrid(picture: Frame, { grid, density }: Item): Promise<{ frame: Frame; notes: string[] }> {
    const { width, height, pixels } = picture;
    const notes = resampleNotes(picture, grid, density !== undefined);
    if (notes.length === 0) return { frame: picture, notes };
    const frame = await this.#hands.ask({ kind: 'resample', tile: { width, height, pixels }, grid });
    return { frame, notes };
  }

  #seamsOf(key: string, { pixels, width, height }: Frame, { tile }: Item): Promise<Verdict> {
    const known = this.#seams.get(key);
    if (known) return known;
    this.counts.checked++;
    const seams = this.#hands
      .ask({ kind: 'tile', tile: { pixels, width, height }, layout: tile.layout })
      .then(inShort);
    this.#seams.set(key, seams);
    seams.catch(() => this.#seams.delete(key));
    return seams;
  }
}

/** One picture may be listed with several layouts: it is fitted and checked for each. */
function keyOf({ tile, grid, inks, inputs }: Item): string {
  const inked = [inks?.card.name, JSON.stringify(inputs.colourway)];
  return [tile.path, grid.tileWidth, grid.tileHeight, formatLayout(tile.layout), ...inked].join('\n');
}
