import { Fault } from '../../../fault.ts';
import { openSightArtwork, type SightArtwork } from '../../../host/sight/artwork.ts';
import { mainColours } from '../../../inspect/index.ts';
import { readPicture } from '../../../picture/index.ts';
import type { OpenedTile } from '../../words/begin.ts';
import { type ArtworkWishes, idOfFile, readFacts } from './artwork-facts.ts';

/** A folder may hold a whole archive; more than this nobody looks through on one page. */
export const MOST_ARTWORKS = 500;

/** Bytes of decoded pictures that are kept besides the last one. */
const MOST_KEPT = 128e6;

/** In 8 bit, and coarser copies of it. */
const BYTES_PER_PIXEL = 4 * (4 / 3);

interface Entry {
  readonly path: string;
  readonly wishes: ArtworkWishes;
  /** The picture of a mask or a parameter is readable and no design. */
  readonly isShown: boolean;
  tile: OpenedTile;
  picture?: Promise<SightArtwork>;
  /** Of the picture, once it is decoded. */
  bytes: number;
  /** When it was asked for last, counted from the first. */
  asked: number;
}

/** The pictures that the person opened, by id. No other file is ever read for the page. */
export class Artworks {
  readonly #entries = new Map<string, Entry>();
  readonly #tell: (tile: OpenedTile) => void;
  #asked = 0;

  /** @param tell Told when more is known of an artwork than its header says. */
  constructor(tell: (tile: OpenedTile) => void) {
    this.#tell = tell;
  }

  /** Opens a picture by its header. @throws Fault (input or usage). */
  async admit(path: string, wishes: ArtworkWishes = {}, isShown = true): Promise<OpenedTile> {
    const id = await idOfFile(path);
    const known = this.#entries.get(id);
    if (known && (known.isShown || !isShown)) return known.tile;
    if (!known && this.#entries.size >= MOST_ARTWORKS) throw tooMany(path);
    const tile = await readFacts(id, path, wishes);
    this.#entries.set(id, { path, wishes, isShown, tile, bytes: 0, asked: 0 });
    return tile;
  }

  /** Opens a picture that a step names, and that is no design. @returns Its id. @throws Fault (input or usage). */
  async admitNamed(path: string): Promise<string> {
    return (await this.admit(path, {}, false)).id;
  }

  /** All that are shown, in the order in which they were opened. */
  get tiles(): OpenedTile[] {
    return [...this.#entries.values()].filter(({ isShown }) => isShown).map(({ tile }) => tile);
  }

  get paths(): string[] {
    return [...this.#entries.values()].map(({ path }) => path);
  }

  has(id: string): boolean {
    return this.#entries.has(id);
  }

  /** @throws Fault (usage) for an id of nothing that was opened. */
  pathOf(id: string): string {
    return this.#entry(id).path;
  }

  tileOf(id: string): OpenedTile {
    return this.#entry(id).tile;
  }

  /** The whole picture, to be looked at; read once, and its main colours are told then. @throws Fault (input). */
  picture(id: string): Promise<SightArtwork> {
    const entry = this.#entry(id);
    entry.asked = ++this.#asked;
    entry.picture ??= this.#read(entry);
    return entry.picture;
  }

  /** Looks at a file again that changed. @returns What it is now. @throws Fault (input) where it cannot be read. */
  async again(id: string): Promise<OpenedTile> {
    const entry = this.#entry(id);
    entry.picture = undefined;
    const revision = entry.tile.revision + 1;
    entry.tile = { ...(await readFacts(id, entry.path, entry.wishes)), revision };
    await this.picture(id);
    return entry.tile;
  }

  idOf(path: string): string | undefined {
    return [...this.#entries.values()].find((one) => one.path === path)?.tile.id;
  }

  async #read(entry: Entry): Promise<SightArtwork> {
    try {
      const picture = await readPicture(entry.path);
      const notes = [...new Set([...picture.notes, ...entry.tile.notes])];
      entry.tile = { ...entry.tile, colours: mainColours(picture), notes };
      entry.bytes = BYTES_PER_PIXEL * picture.width * picture.height;
      this.#tell(entry.tile);
      this.#makeRoom(entry);
      return openSightArtwork(picture);
    } catch (error) {
      entry.picture = undefined;
      throw error;
    }
  }

  /** The last read stays, however large; of the others those that were asked for last. */
  #makeRoom(last: Entry): void {
    let left = MOST_KEPT;
    const others = [...this.#entries.values()].filter((entry) => entry !== last && entry.picture);
    for (const entry of others.sort((a, b) => b.asked - a.asked)) {
      left -= entry.bytes;
      if (left < 0) entry.picture = undefined;
    }
  }

  #entry(id: string): Entry {
    const entry = this.#entries.get(id);
    if (entry) return entry;
    throw new Fault({
      kind: 'usage',
      expected: 'a picture that was opened',
      subject: 'the picture',
      received: `the id "${id}"`,
      remedy: 'Open it, or drop it onto the page.',
    });
  }
}

function tooMany(path: string): Fault {
  return new Fault({
    kind: 'usage',
    expected: `at most ${MOST_ARTWORKS} pictures on one page`,
    subject: path,
    received: 'one more',
    remedy: 'Open a folder with fewer, or one of them by itself.',
  });
}
