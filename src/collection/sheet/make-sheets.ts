import { isAbsolute, join, relative, resolve, sep } from 'node:path';
import { Fault } from '../../fault.ts';
import { refuseInputsAmong } from '../../picture/index.ts';
import { fillInside } from '../disk/inside.ts';
import { placeInside } from '../disk/output.ts';
import { byTile } from './by-tile.ts';
import { OriginalReader } from './original-reader.ts';
import { type PageFacts, PageMaker, refuseNarrowRoom } from './page-maker.ts';
import type { SmallOrReason } from './sheet-stack.ts';
import { SheetStacks } from './sheet-stacks.ts';
import { readSmall } from './small-picture.ts';
import type { Book, Shown, Swatch } from './swatch.ts';

export const PAGE_FILE = 'swatches.html';
/** Bytes of the page that its pictures may take, where nothing else is said. */
export const PICTURE_ROOM = 24e6;

export interface SheetSettings {
  /** Where the sheets go; made where it is missing. */
  readonly folder: string;
  /** Draw contact sheets; true where absent. */
  readonly drawsSheets?: boolean;
  /** Write the page; true where absent. */
  readonly writesPage?: boolean;
  /** Bytes of the page that its pictures may take together. */
  readonly pictureRoom?: number;
  readonly signal?: AbortSignal;
  /** Told after every swatch. */
  readonly onSwatch?: (done: number, all: number) => void;
}

/** What was made. */
export interface SheetsMade {
  /** Paths of the contact sheets. */
  readonly sheets: readonly string[];
  readonly page?: PageFacts & { readonly path: string };
  /** Swatches with a picture. */
  readonly shown: number;
  /** Swatches without one, and why. */
  readonly empty: readonly EmptySwatch[];
}

export interface EmptySwatch {
  readonly name: string;
  readonly reason: string;
}

/** Somebody who shows swatches: sheets, or a page. */
interface Shower {
  /** Pixels per mm that it wants of a picture of this swatch: the render, or its artwork. */
  densityFor(swatch: Swatch, picture: Shown): number;
  /** @param original The artwork, or why it is not shown; none where nothing is known of it. */
  add(swatch: Swatch, shown: SmallOrReason, original?: SmallOrReason): Promise<void>;
}

/**
 * Draws the contact sheets of a collection, for each tile and for all, and writes the page to choose
 * from. Each picture is read once, one at a time; one that cannot be read is an empty swatch.
 *
 * @throws Fault (usage) where the room for pictures is too little for so many; Fault (output) where
 *   something cannot be written, or would replace a render or what it was made from; Fault (cancelled).
 */
export async function makeSheets(given: Book, settings: SheetSettings): Promise<SheetsMade> {
  const book = { ...given, swatches: byTile(given.swatches) };
  const { folder, drawsSheets = true, writesPage = true, pictureRoom = PICTURE_ROOM, signal } = settings;
  refuseRenders(book, folder);
  await refuseLinkedFolder(book, folder);
  const stacks = drawsSheets ? new SheetStacks(book, folder) : undefined;
  const path = join(folder, PAGE_FILE);
  await refuseInputsAmong([...(stacks?.paths ?? []), ...(writesPage ? [path] : [])], sourcesOf(book));
  const showers: Shower[] = stacks ? [stacks] : [];
  if (!writesPage) return { ...(await showAll(book, showers, settings)), sheets: stacks?.written ?? [] };
  refuseNarrowRoom(book, pictureRoom);
  return fillInside(folder, PAGE_FILE, { signal }, async (beside) => {
    const page = await PageMaker.begin(beside, book, pictureRoom);
    try {
      const done = await showAll(book, [...showers, page], settings);
      return { ...done, sheets: stacks?.written ?? [], page: { path, ...(await page.end()) } };
    } finally {
      await page.close();
    }
  });
}

async function showAll(
  { swatches }: Book,
  showers: readonly Shower[],
  { signal, onSwatch }: SheetSettings,
): Promise<Pick<SheetsMade, 'shown' | 'empty'>> {
  const empty: EmptySwatch[] = [];
  const originals = new OriginalReader();
  for (const [index, swatch] of swatches.entries()) {
    if (signal?.aborted) throw stopped(index, swatches.length);
    const densityFor = (picture: Shown) =>
      Math.max(0, ...showers.map((shower) => shower.densityFor(swatch, picture)));
    const shown = await look(swatch, densityFor);
    const original = swatch.original && (await originals.read(swatch.original, densityFor(swatch.original)));
    if (typeof shown === 'string') empty.push({ name: swatch.name, reason: shown });
    for (const shower of showers) await shower.add(swatch, shown, original);
    onSwatch?.(index + 1, swatches.length);
  }
  return { shown: swatches.length - empty.length, empty };
}

/** Its picture, or why there is none. */
async function look(
  { made, reason }: Swatch,
  densityFor: (picture: Shown) => number,
): Promise<SmallOrReason> {
  if (!made) return reason ?? 'not rendered yet';
  try {
    return await readSmall(made, densityFor(made));
  } catch (error) {
    return `its picture cannot be read: ${(error as Error).message.trim()}`;
  }
}

function sourcesOf({ sources = [], swatches }: Book): string[] {
  return [
    ...sources,
    ...swatches.flatMap(({ made, original }) => [made?.path ?? [], original?.path ?? []].flat()),
  ];
}

/** @throws Fault (output) where renders of this collection stand in the folder of the sheets. */
function refuseRenders({ folder, swatches }: Book, sheets: string): void {
  const render = swatches.find(({ name }) => join(folder, name, '..') === join(sheets));
  if (!render) return;
  throw new Fault({
    kind: 'output',
    expected: 'a folder of their own',
    subject: 'the sheets',
    received: `${sheets}, where the render "${render.name}" stands`,
    remedy: 'Name another with --to.',
  });
}

/** A folder of sheets in the output folder is no link; one elsewhere is what its user named. */
async function refuseLinkedFolder(book: Book, sheets: string): Promise<void> {
  const way = relative(book.folder, resolve(sheets));
  if (way !== '' && way.split(sep)[0] !== '..' && !isAbsolute(way)) await placeInside(book.folder, way);
}

function stopped(done: number, all: number): Fault {
  return new Fault({
    kind: 'cancelled',
    expected: 'the sheets to be made',
    subject: 'the collection',
    received: `a request to stop after ${done} of ${all} swatches`,
    saying: `The sheets were stopped after ${done} of ${all} swatches.`,
    remedy: 'Sheets that were whole by then are there; the page is not.',
  });
}
