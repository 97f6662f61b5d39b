import { stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { openRecipes } from '../../../collection/file/recipes.ts';
import { openTiles } from '../../../collection/file/tiles.ts';
import { readCollection } from '../../../collection/index.ts';
import { PAGE_FILE } from '../../../collection/sheet/index.ts';
import { Fault } from '../../../fault.ts';
import { groundFor } from '../../../render/ground.ts';
import { formatLayout } from '../../../repeat/layout.ts';
import type { KeptWork, OpenedTile } from '../../words/begin.ts';
import type { Laying, Work } from '../../words/work.ts';
import type { Desk } from '../desk.ts';
import { beginWork } from '../kept/begun.ts';
import { type ArtworkWishes, idOfFile } from './artwork-facts.ts';
import { droppedBefore } from './dropped.ts';
import { offerNamed, offerRecipeFile, offerRecipes } from './offers.ts';
import { withOpenedNames } from './opened-pictures.ts';
import type { ToOpen } from './what-to-open.ts';

/** Folders in which works are looked for are small; this many are begun at once. */
const MOST_BEGUN = 200;

/**
 * Lays out on the desk what the person asked for, and what was under work there before.
 *
 * @throws Fault (input or usage) where it cannot be read; of a folder the pictures that cannot are told and left out.
 */
export async function layOut(
  desk: Desk,
  { kind, paths, notes }: ToOpen,
  wishes: ArtworkWishes,
  watched?: Laying,
): Promise<void> {
  desk.faults.push(...notes);
  const tell = (words: string) => void desk.faults.push(words);
  const kept = await desk.works.readAll(tell);
  const tiles: OpenedTile[] = [];
  const asked = watched && (await withOpened(desk, watched));
  let laying = asked;
  if (kind === 'tiles') tiles.push(...(await openPictures(desk, paths, wishes)));
  if (kind === 'collection') tiles.push(...(await openCollection(desk, paths[0])));
  if (kind === 'recipe') {
    const recipe = await offerRecipeFile(paths[0], desk.shelf, desk.artworks);
    desk.recipes.push(recipe);
    laying = recipe.laying;
  }
  desk.recipes.push(...(await offerRecipes(desk.shelf, desk.artworks, tell)));
  await openDropped(desk, kept);
  if (laying && tiles.length === 0)
    begin(desk, kept, beginAlone(desk, await idOfFile(paths[0] ?? desk.folder.home), laying));
  for (const tile of tiles.slice(0, MOST_BEGUN)) await beginTile(desk, kept, tile, wishes, asked);
  putBack(desk, kept);
  if (desk.begun.length === 0) begin(desk, kept, beginWork('new', undefined));
}

/** The same, with the pictures opened that its values name. */
async function withOpened({ shelf, artworks }: Desk, laying: Laying): Promise<Laying> {
  const admit = (path: string) => artworks.admitNamed(path);
  const steps = await Promise.all(laying.steps.map((step) => withOpenedNames(step, shelf, admit)));
  return { ...laying, steps };
}

/** Of one picture a fault is the person's answer; in a folder it costs that picture alone. */
async function openPictures(
  { artworks, faults }: Desk,
  paths: readonly string[],
  wishes: ArtworkWishes,
): Promise<OpenedTile[]> {
  const tiles: OpenedTile[] = [];
  for (const path of paths) {
    try {
      tiles.push(await artworks.admit(path, wishes));
    } catch (error) {
      if (paths.length === 1 || !Fault.is(error)) throw error;
      faults.push(error.message);
    }
  }
  return tiles;
}

async function openCollection(desk: Desk, path: string): Promise<OpenedTile[]> {
  const collection = await readCollection(path);
  const found = await openTiles(collection);
  const recipes = await openRecipes(collection, desk.shelf);
  collection.findings.throwIfAny();
  for (const recipe of recipes) {
    try {
      desk.recipes.push(await offerNamed(recipe, desk.shelf, desk.artworks));
    } catch (error) {
      if (!Fault.is(error)) throw error;
      desk.faults.push(`${recipe.name}: ${error.message}`);
    }
  }
  if (recipes.some(({ axes }) => axes.some(({ name }) => name === 'colourway')))
    desk.faults.push(
      'The collection varies colourways; the page shows its artwork in its own colours alone. "tenter collect run" makes them.',
    );
  const page = join(collection.folder, collection.entry.output?.folder ?? 'made', 'sheets', PAGE_FILE);
  if (await isFile(page)) desk.sheets.set(basename(path), page);
  const tiles: OpenedTile[] = [];
  for (const tile of found) {
    const { name, layout, size } = tile;
    tiles.push(await desk.artworks.admit(tile.path, { name, layout: formatLayout(layout), size }));
  }
  return tiles;
}

/** Pictures dropped in sessions before, as far as a work needs them. */
async function openDropped({ artworks, folder }: Desk, kept: readonly KeptWork[]): Promise<void> {
  const tiles = new Set(kept.flatMap(({ work }) => work.tile ?? []));
  const named = new Set(kept.flatMap(({ work }) => openedIn(work)));
  for (const { path, name } of await droppedBefore(folder)) {
    const id = await idOfFile(path);
    if (tiles.has(id) || named.has(id)) await artworks.admit(path, { name }, tiles.has(id)).catch(() => {});
  }
}

/** The ids of what the steps of a work name: masks, and pictures of parameters. */
function openedIn({ laying, trials }: Work): string[] {
  const found = JSON.stringify([laying, trials]).matchAll(/"opened:([\w-]{1,64})/g);
  return [...found].map(([, id]) => id);
}

/** A recipe by itself, over a ground on which all of its steps are seen. */
function beginAlone({ shelf }: Desk, id: string, laying: Laying): KeptWork {
  const planes = laying.steps.flatMap(({ effect }) => shelf.effects.get(effect)?.effect.planes ?? []);
  return beginWork(`alone-${id}`, undefined, laying, groundFor({ planes }));
}

/** An artwork goes on where it was left; what the command says of it now counts, and can be undone. */
async function beginTile(
  desk: Desk,
  kept: readonly KeptWork[],
  tile: OpenedTile,
  { layout, size }: ArtworkWishes,
  laying?: Laying,
): Promise<void> {
  // A plugin that is watched is what the page was opened for: work without it is another.
  const watched = laying?.steps[0]?.effect;
  const isIts = ({ work }: KeptWork) =>
    work.tile === tile.id && (!watched || work.laying.steps.some(({ effect }) => effect === watched));
  const before = kept.find(isIts);
  if (!before) {
    const id = `tile-${tile.id}${watched ? `-${watched}` : ''}`.slice(0, 64);
    return begin(desk, kept, beginWork(id, tile, laying));
  }
  desk.begun.push(before.id);
  const { work, past, revision } = before;
  const said = { layout: layout ?? work.layout, size: size ?? work.size };
  const isSame =
    said.layout === work.layout &&
    said.size.width === work.size.width &&
    said.size.height === work.size.height;
  if (isSame) return;
  const changed = { ...work, ...said };
  await desk.works.put({
    ...before,
    revision: revision + 1,
    work: changed,
    past: [...past, work],
    future: [],
  });
}

/** Begins a work, or goes on with the one that is kept of it. */
function begin(desk: Desk, kept: readonly KeptWork[], fresh: KeptWork): void {
  if (!kept.some(({ id }) => id === fresh.id)) desk.works.begin(fresh);
  desk.begun.push(fresh.id);
}

/** Other works that stood here, as far as their artwork is open. */
function putBack({ artworks, begun }: Desk, kept: readonly KeptWork[]): void {
  for (const { id, work } of kept) {
    const isOpen = work.tile === undefined || artworks.has(work.tile);
    if (isOpen && !begun.includes(id)) begun.push(id);
  }
}

function isFile(path: string): Promise<boolean> {
  return stat(path).then(
    (found) => found.isFile(),
    () => false,
  );
}
