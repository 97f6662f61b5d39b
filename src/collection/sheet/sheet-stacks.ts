import { nameOf } from '../plan/naming.ts';
import { tilesOf } from './by-tile.ts';
import { headingOf, tileFacts } from './caption.ts';
import { COLLECTION_SHEET, TILE_SHEET } from './sheet-shape.ts';
import { SheetStack, type SmallOrReason } from './sheet-stack.ts';
import { type Book, type Swatch, tileOf } from './swatch.ts';

/** The contact sheets of a collection: one stack for each tile, one for all. */
export class SheetStacks {
  readonly #whole: SheetStack;
  readonly #tiles: ReadonlyMap<string, SheetStack>;

  /** @param folder Where they go. */
  constructor({ summary, swatches }: Pick<Book, 'summary' | 'swatches'>, folder: string) {
    const tiles = tilesOf(swatches);
    const names = fileNames([...tiles.keys()]);
    this.#tiles = new Map(
      [...tiles].map(([tile, own]) => {
        const heading = { title: headingOf(own[0]), facts: tileFacts(own) };
        return [
          tile,
          new SheetStack({ folder, name: names.get(tile)!, heading, shape: TILE_SHEET, swatches: own }),
        ];
      }),
    );
    const facts = `${swatches.length} swatches of ${tiles.size} ${tiles.size === 1 ? 'tile' : 'tiles'}`;
    const heading = { title: summary, facts };
    this.#whole = new SheetStack({ folder, name: 'collection', heading, shape: COLLECTION_SHEET, swatches });
  }

  /** Pixels per mm that this swatch is wanted at. */
  densityFor(swatch: Swatch): number {
    return Math.max(this.#whole.density, this.#of(swatch).density);
  }

  /** Takes swatches in the order of the book. @throws Fault (output). */
  async add(swatch: Swatch, shown: SmallOrReason, original?: SmallOrReason): Promise<void> {
    await this.#of(swatch).add(shown, original);
    await this.#whole.add(shown, original);
  }

  /** The files that there will be. */
  get paths(): string[] {
    return [...this.#whole.paths, ...[...this.#tiles.values()].flatMap(({ paths }) => paths)];
  }

  /** The files: the collection's first. */
  get written(): string[] {
    return [...this.#whole.written, ...[...this.#tiles.values()].flatMap(({ written }) => written)];
  }

  #of(swatch: Swatch): SheetStack {
    return this.#tiles.get(tileOf(swatch))!;
  }
}

/** A file name for every tile; two that a disk would take for one get a number. */
function fileNames(tiles: readonly string[]): Map<string, string> {
  const taken = new Set<string>();
  const names = new Map<string, string>();
  for (const tile of tiles) {
    const plain = nameOf('tile-{tile}', { tile: tile || 'unknown' });
    let name = plain;
    for (let number = 2; taken.has(name.toLowerCase()); number++) name = `${plain}_${number}`;
    taken.add(name.toLowerCase());
    names.set(tile, name);
  }
  return names;
}
