import { stat } from 'node:fs/promises';
import { basename, extname, resolve } from 'node:path';
import { glob } from 'tinyglobby';
import type { Place } from '../../host/files/findings.ts';
import { pathFrom } from '../../host/files/path-from.ts';
import { squareDensity, uprightSize } from '../../picture/decode.ts';
import { readSteadily } from '../../picture/file-hash.ts';
import { readHeader } from '../../picture/header.ts';
import type { Bits } from '../../picture/index.ts';
import { remedyOfMissing } from '../../picture/near-file.ts';
import type { Follow } from '../../render/follow.ts';
import { type SizeSource, sizeOfTile } from '../../render/tile-grid.ts';
import { type Layout, parseLayout } from '../../repeat/layout.ts';
import { parseDensity, parseSize, type Size } from '../../repeat/length.ts';
import type { ReadCollection } from './read.ts';
import type { TileEntry } from './schema.ts';

/** A tile of a collection: what is known of it without decoding it. */
export interface CollectionTile {
  readonly name: string;
  readonly path: string;
  /** From the collection's folder, with forward slashes: what a record of it says. */
  readonly shown: string;
  /** Of the file. */
  readonly sha256: string;
  readonly width: number;
  readonly height: number;
  readonly bits: Bits;
  readonly layout: Layout;
  /** mm, where it is given or follows from a density. */
  readonly size?: Size;
  /** What tells it. */
  readonly sizeFrom?: SizeSource;
  readonly fit: boolean;
  readonly follow?: Follow;
  /** Absolute paths of its colourway file and its card. */
  readonly ways?: string;
  readonly card?: string;
  readonly place: Place;
}

/** Finds all tiles and looks at their headers; whatever is wrong goes to the collection's findings. */
export async function openTiles(collection: ReadCollection): Promise<CollectionTile[]> {
  const found: CollectionTile[] = [];
  for (const [index, entry] of collection.entry.tiles.entries()) {
    const place: Place = ['tiles', index];
    const paths = await pathsOf(collection, entry, place);
    if (entry.name !== undefined && paths.length > 1) {
      collection.findings.add(place, `one name cannot stand for ${paths.length} pictures`, 'name');
    }
    for (const path of paths) {
      if (await isMisread(path)) {
        collection.findings.add([...place, 'picture'], `the name of ${path} is not UTF-8; rename the file`);
        continue;
      }
      const tile = await collection.findings.tryLater([...place, 'picture'], () =>
        openTile(collection, entry, path, place),
      );
      if (tile) found.push(tile);
    }
  }
  return found;
}

/** Node reads a name that is not UTF-8 with U+FFFD in it, and then finds no such file. */
async function isMisread(path: string): Promise<boolean> {
  if (!path.includes('\uFFFD')) return false;
  return stat(path).then(
    () => false,
    () => true,
  );
}

async function pathsOf(
  { findings, folder }: ReadCollection,
  { picture }: TileEntry,
  place: Place,
): Promise<string[]> {
  const found: string[] = [];
  for (const pattern of [picture].flat()) {
    const paths = await expand(pattern, folder);
    if (paths.length === 0) {
      const isPattern = /[*?[{]/.test(pattern);
      const words = isPattern ? 'no picture fits this pattern' : 'no such file';
      const remedy = isPattern
        ? ''
        : `. ${remedyOfMissing(pattern, { from: folder, otherwise: 'Check the path.' })}`;
      findings.add([...place, 'picture'], `${words}: "${pattern}", looked for in ${folder}${remedy}`);
    }
    found.push(...paths);
  }
  return [...new Set(found)];
}

/** A file of exactly that name comes before a pattern: names may hold brackets. */
async function expand(pattern: string, folder: string): Promise<string[]> {
  const literal = resolve(folder, pattern);
  if (
    await stat(literal).then(
      (found) => found.isFile(),
      () => false,
    )
  )
    return [literal];
  const found = await glob([pattern.replaceAll('\\', '/')], {
    cwd: folder,
    absolute: true,
    expandDirectories: false,
  });
  return found.map((path) => resolve(path)).sort();
}

async function openTile(
  { folder, findings }: ReadCollection,
  entry: TileEntry,
  path: string,
  place: Place,
): Promise<CollectionTile> {
  const { result: header, sha256 } = await readSteadily(path, () => readHeader(path));
  const { width, height } = uprightSize(header);
  const layout = findings.try([...place, 'layout'], () => parseLayout(entry.layout ?? 'straight'));
  const given = findings.try([...place, 'size'], () =>
    entry.size === undefined ? undefined : parseSize(entry.size),
  );
  const density = findings.try([...place, 'dpi'], () =>
    entry.dpi === undefined ? undefined : parseDensity(String(entry.dpi)),
  );
  const clues = given ? { size: given } : { density, fileDensity: squareDensity(header) };
  const sized = sizeOfTile({ width, height }, clues);
  return {
    name: entry.name ?? basename(path, extname(path)),
    path,
    shown: pathFrom(folder, path),
    sha256,
    width,
    height,
    bits: header.bits,
    layout: layout ?? parseLayout('straight'),
    size: sized?.size,
    sizeFrom: sized?.from,
    fit: entry.fit ?? false,
    follow: entry.follow,
    ways: entry.ways === undefined ? undefined : resolve(folder, entry.ways),
    card: entry.card === undefined ? undefined : resolve(folder, entry.card),
    place,
  };
}
