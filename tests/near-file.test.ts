import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readCollection } from '../src/collection/file/read.ts';
import { findPlaces, readRecipeFile } from '../src/host/index.ts';
import { readPicture } from '../src/picture/index.ts';

let folder: string;
const at = (path: string) => join(folder, path);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tenter-near-'));
  for (const file of ['sprig.png', 'Leaves-Wide.tif', 'my-recipe.json', 'spring.json'])
    writeFileSync(at(file), '');
  mkdirSync(at('weave'));
  writeFileSync(at('weave/index.ts'), '');
  mkdirSync(at('artwork'));
  symlinkSync(at('gone.png'), at('lost.png'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it.each([
  ['a tile or mask', 'sprg.png', 'sprig.png', readPicture],
  ['one without its ending', 'sprig', 'sprig.png', readPicture],
  ['one in other letters', 'leaves-wide.tif', 'Leaves-Wide.tif', readPicture],
  ['a folder of the way', 'artwrok/sprig.png', 'artwork', readPicture],
  ['a recipe', 'my-recpe.json', 'my-recipe.json', readRecipeFile],
  ['a collection', 'sprign.json', 'spring.json', readCollection],
  ['a plugin', 'waeve', 'weave', (path: string) => findPlaces([path], folder)],
  ['a file of a plugin', 'weave/indx.ts', 'weave/index.ts', (path: string) => findPlaces([path], folder)],
])('names the nearest of %s that is missing', async (_, missing, near, read) => {
  await expect(read(at(missing))).rejects.toThrow(`Did you mean "${at(near)}"?`);
});

it.each([
  ['quite-another-name.png', 'Check the path.', readPicture],
  ['lost.png', 'Check the path.', readPicture],
  ['nowhere/at/all.json', 'Check the path; "tenter start my-recipe.json', readRecipeFile],
  ['zzz', 'Check the path.', (path: string) => findPlaces([path], folder)],
])('guesses nothing for %s', async (missing, words, read) => {
  await expect(read(at(missing))).rejects.toThrow(words);
});
