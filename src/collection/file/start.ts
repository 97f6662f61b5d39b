import { readdir } from 'node:fs/promises';
import { dirname, extname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Fault } from '../../fault.ts';
import { packageRoot } from '../../host/code/root.ts';
import { pathFrom } from '../../host/files/path-from.ts';
import { READ_FORMATS } from '../../picture/index.ts';
import { lookAtTile, type StartedTile, tileLines } from './start-tile.ts';

export interface StartWishes {
  /** With the pictures. */
  readonly folder: string;
  /** Where the file will lie; paths in it start from there. */
  readonly file: string;
  /** Density for pictures that state none, pixels per mm. */
  readonly dpi?: number;
  /** Told before each picture is looked at, which takes seconds for a large one. */
  readonly onTile?: (done: number, name: string) => void;
}

/** A collection file that is yet to be written. */
export interface StartedCollection {
  readonly text: string;
  /** All files that look like pictures. */
  readonly pictures: readonly string[];
  readonly unreadable: readonly string[];
}

const ENDINGS = ['.png', '.jpg', '.jpeg', '.webp', '.tif', '.tiff'];

/**
 * Writes the text of a collection file for a folder of pictures. It is right as it is, renders little,
 * and its remarks say what can be changed.
 *
 * @returns The text, the paths of the pictures, and the names of files that look like pictures and cannot be read.
 * @throws Fault (input) for a folder that is missing or holds no picture.
 */
export async function startCollection(wishes: StartWishes): Promise<StartedCollection> {
  const { folder, file, dpi = STATED_DPI / 25.4, onTile } = wishes;
  const names = (await namesIn(folder)).filter((name) => ENDINGS.includes(extname(name).toLowerCase()));
  const tiles: StartedTile[] = [];
  const unreadable: string[] = [];
  for (const [index, name] of names.sort().entries()) {
    onTile?.(index / names.length, name);
    const tile = await lookAtTile(join(folder, name)).catch((error) => keepFault(error));
    if (tile) tiles.push(tile);
    else unreadable.push(name);
  }
  if (tiles.length === 0) {
    throw new Fault({
      kind: 'input',
      expected: `a folder with pictures (${READ_FORMATS})`,
      subject: folder,
      received: names.length ? `${names.length} that cannot be read` : 'none',
      remedy: 'Give the folder that holds your tiles.',
    });
  }
  const start = dirname(resolve(file));
  return {
    text: textFor(
      tiles.map((tile) => tileLines(tile, start, dpi)),
      schemaFor(start),
    ),
    pictures: names.map((name) => join(folder, name)),
    unreadable,
  };
}

/** Taken where a picture states no density. */
const STATED_DPI = 300;

async function namesIn(folder: string): Promise<string[]> {
  try {
    return await readdir(folder);
  } catch (cause) {
    const { code, message } = cause as NodeJS.ErrnoException;
    throw new Fault({
      kind: 'input',
      expected: 'a folder with pictures',
      subject: folder,
      received: code === 'ENOENT' ? 'no such folder' : code === 'ENOTDIR' ? 'a file' : message,
      cause,
    });
  }
}

function keepFault(error: unknown): undefined {
  if (!Fault.is(error)) throw error;
  return undefined;
}

/** From an installed package the way is long; then a plain address does. */
function schemaFor(start: string): string {
  const schema = join(packageRoot, 'presets', 'collection.schema.json');
  const way = pathFrom(start, schema);
  return way.split('/').filter((part) => part === '..').length <= 3 ? way : pathToFileURL(schema).href;
}

function textFor(tiles: readonly string[], schema: string): string {
  return `{
  "$schema": ${JSON.stringify(schema)},
  "summary": "What this collection is for.",

  // Where the pictures go, and what they are called. Words in braces are tile, recipe, hash and every axis.
  "output": { "folder": "made", "name": "{tile}/{recipe}-{seed}-{opacity}", "format": "png" },

  // The artwork. The layout is straight, drop:1/2, brick:1/3, mirror-x, mirror-y, mirror-xy or turn; the common
  // ones were tried on each picture, and one that it closes over is written. A pattern such as "artwork/*.png"
  // stands for many pictures. "fit" takes the nearest whole pixels that the layout needs.
  "tiles": [
${tiles.join(',\n')}
  ],

  // What is laid over each of them: an effect, with a preset or several; a recipe by name; or steps as in a
  // recipe file. "tenter effects" lists what there is.
  "recipes": [
    { "effect": "linen-weave", "presets": ["kitchen-apron", "bed-sheet"] },
    { "effect": "wood-grain", "preset": "printed-plank" }
    // { "recipe": "papered-boards" }
  ],

  // What is varied; every value of one axis meets every value of the others.
  "vary": {
    "seed": { "count": 2 },
    "opacity": [0.6, 1]
    // "dpi": [75, 300]                                        proof and print: the tile is resampled
    // "linen-weave.ends": { "from": 10, "to": 18, "step": 4 }  any parameter, as "effect.parameter"
  },

  // Combinations to leave out; * stands for any letters.
  "except": [{ "recipe": "wood-grain-*", "opacity": 0.6 }]
}
`;
}
