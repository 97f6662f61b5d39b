import { readdir, stat } from 'node:fs/promises';
import { dirname, extname, join, resolve } from 'node:path';
import { parse } from 'jsonc-parser';
import { Fault } from '../../../fault.ts';
import { isObjectWith } from '../../../host/files/json-file.ts';
import { readTextFile } from '../../../host/files/text-file.ts';
import { READ_FORMATS } from '../../../picture/index.ts';
import { remedyOfMissing } from '../../../picture/near-file.ts';
import { MOST_ARTWORKS } from './artworks.ts';

/** What a person named, and the folder that the work then stands in. */
export interface ToOpen {
  readonly kind: 'tiles' | 'recipe' | 'collection' | 'nothing';
  /** Pictures, or the one file. */
  readonly paths: readonly string[];
  readonly home: string;
  /** What else there is to say. */
  readonly notes: readonly string[];
}

const ENDINGS = ['.png', '.jpg', '.jpeg', '.webp', '.tif', '.tiff'];

/** @throws Fault (input) for a place that is missing, or a folder without pictures. */
export async function whatToOpen(place: string): Promise<ToOpen> {
  const found = await stat(place).catch((cause: NodeJS.ErrnoException) => {
    throw new Fault({
      kind: 'input',
      expected: 'a picture, a recipe, a collection file, or a folder of pictures',
      subject: place,
      received: cause.code === 'ENOENT' ? 'no such file' : cause.message,
      remedy: remedyOfMissing(place),
      cause,
    });
  });
  if (found.isDirectory()) return picturesIn(resolve(place));
  const path = resolve(place);
  const one = { paths: [path], home: dirname(path), notes: [] };
  if (extname(place).toLowerCase() !== '.json') return { kind: 'tiles', ...one };
  const text = await readTextFile(place, { expected: 'a recipe or a collection (a JSON file)' });
  return { kind: isObjectWith(parse(text), 'tiles') ? 'collection' : 'recipe', ...one };
}

async function picturesIn(folder: string): Promise<ToOpen> {
  const names = (await readdir(folder))
    .filter((name) => ENDINGS.includes(extname(name).toLowerCase()))
    .sort();
  if (names.length === 0) {
    throw new Fault({
      kind: 'input',
      expected: `a folder with pictures (${READ_FORMATS})`,
      subject: folder,
      received: 'none',
      remedy: 'Give the folder that holds your tiles.',
    });
  }
  const shown = names.slice(0, MOST_ARTWORKS - 50);
  const notes =
    shown.length < names.length
      ? [`${folder} has ${names.length} pictures: the first ${shown.length} are on the page`]
      : [];
  return { kind: 'tiles', paths: shown.map((name) => join(folder, name)), home: folder, notes };
}
