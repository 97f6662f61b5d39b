import { readFile, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, extname } from 'node:path';
import { applyEdits, modify } from 'jsonc-parser';
import { readCollection } from '../../../collection/index.ts';
import { Fault } from '../../../fault.ts';
import { pathFrom } from '../../../host/files/path-from.ts';
import { writeBeside } from '../../../picture/beside.ts';
import type { Trial, Work } from '../../words/work.ts';
import type { Desk } from '../desk.ts';
import { sizeWord } from './command-words.ts';
import { fileWord } from './file-name.ts';
import { saveRecipe, schemaFrom } from './save-recipe.ts';
import { workGrid } from './work-grid.ts';

/** Trials that go into a collection file. */
export interface CollectionOrder {
  readonly path: string;
  readonly work: Work;
  /** Which; all where absent. */
  readonly trials?: readonly string[];
}

/**
 * Writes trials as recipe files, and a collection file that names them; to one that is there they are added, and
 * what stands in it stays, remarks too.
 *
 * @returns What came of it, in words.
 * @throws Fault (usage) where there is no tile or no trial; Fault (input) where the file is no collection.
 */
export async function saveCollection(desk: Desk, order: CollectionOrder): Promise<string[]> {
  const { path, work } = order;
  const trials = chosenTrials(order);
  const picture = pictureFrom(desk, work, dirname(path));
  const before = await textOf(path);
  if (before !== undefined) await readCollection(path);
  const { grid } = workGrid(work, desk.artworks, undefined, true);
  const entries: { name: string; recipe: string }[] = [];
  const known =
    before === undefined ? [] : (await readCollection(path)).entry.recipes.map(({ name }) => name);
  const stem = path.slice(0, path.length - extname(path).length);
  for (const trial of trials) {
    const name = freeWord(fileWord(trial.name), [...known, ...entries.map((entry) => entry.name)]);
    const recipe = await freePath(`${stem}-${name}`);
    const { resists } = work;
    const { laying } = trial;
    await saveRecipe(desk, { path: recipe, laying, resists, grid, overwrite: false, summary: trial.name });
    entries.push({ name, recipe: basename(recipe) });
  }
  const tile = { picture, layout: work.layout, size: sizeWord(work.size), fit: true };
  const text =
    before === undefined
      ? freshText(dirname(path), tile, entries)
      : await addedText(path, before, tile, entries);
  await writeBeside(path, { overwrite: before !== undefined }, (beside) => writeFile(beside, text));
  const done = before === undefined ? 'made with' : 'added to by';
  return [`${done} ${entries.length} ${entries.length === 1 ? 'trial' : 'trials'}`];
}

function chosenTrials({ work, trials }: CollectionOrder): Trial[] {
  const found = work.trials.filter(({ id }) => trials === undefined || trials.includes(id));
  const laid = found.filter(({ laying }) => laying.steps.some(({ held }) => !held));
  if (laid.length > 0) return laid;
  throw new Fault({
    kind: 'usage',
    expected: 'at least one trial',
    subject: 'the collection',
    received: 'none',
    remedy: 'Pin what is on the cloth first.',
  });
}

function pictureFrom({ artworks }: Desk, { tile }: Work, folder: string): string {
  if (tile !== undefined) return pathFrom(folder, artworks.pathOf(tile));
  throw new Fault({
    kind: 'usage',
    expected: 'an artwork',
    subject: 'the collection',
    received: 'a texture alone',
    remedy: 'A collection lays recipes over tiles: open one first.',
  });
}

interface TileEntry {
  readonly picture: string;
  readonly layout: string;
  readonly size: string;
  readonly fit: boolean;
}

function freshText(folder: string, tile: TileEntry, recipes: readonly object[]): string {
  const collection = {
    $schema: schemaFrom(folder, 'collection.schema.json'),
    summary: 'Trials that were chosen on the page.',
    output: { folder: 'made', name: '{tile}/{recipe}', format: 'png' },
    tiles: [tile],
    recipes,
  };
  return `${JSON.stringify(collection, null, 2)}\n`;
}

/** The same text with more in its lists. */
async function addedText(
  path: string,
  before: string,
  tile: TileEntry,
  recipes: readonly object[],
): Promise<string> {
  const { entry } = await readCollection(path);
  const isKnown = entry.tiles.some(({ picture }) => [picture].flat().includes(tile.picture));
  let text = before;
  if (!isKnown) text = withItem(text, 'tiles', tile);
  for (const recipe of recipes) text = withItem(text, 'recipes', recipe);
  return text;
}

function withItem(text: string, list: 'tiles' | 'recipes', item: object): string {
  const how = { isArrayInsertion: true, formattingOptions: { insertSpaces: true, tabSize: 2 } };
  return applyEdits(text, modify(text, [list, -1], item, how));
}

async function textOf(path: string): Promise<string | undefined> {
  return readFile(path, 'utf8').catch((cause: NodeJS.ErrnoException) => {
    if (cause.code === 'ENOENT') return undefined;
    throw cause;
  });
}

function freeWord(word: string, taken: readonly (string | undefined)[]): string {
  for (let number = 1; ; number++) {
    const name = number === 1 ? word : `${word}-${number}`;
    if (!taken.includes(name)) return name;
  }
}

async function freePath(stem: string): Promise<string> {
  for (let number = 1; ; number++) {
    const path = `${stem}${number === 1 ? '' : `-${number}`}.json`;
    const isTaken = await stat(path).then(
      () => true,
      () => false,
    );
    if (!isTaken) return path;
  }
}
