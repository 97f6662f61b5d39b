import { writeFile } from 'node:fs/promises';
import { dirname, extname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { packageRoot } from '../../../host/code/root.ts';
import { pathFrom } from '../../../host/files/path-from.ts';
import { refuseTaken, writeBeside } from '../../../picture/beside.ts';
import { refuseInputs, writePicture } from '../../../picture/index.ts';
import type { Grid } from '../../../repeat/grid.ts';
import type { Laying, Work } from '../../words/work.ts';
import type { Desk } from '../desk.ts';
import { renderedSteps } from '../looks/laid-steps.ts';
import { paintedResist, requireResist } from '../looks/painted-resist.ts';
import { withOpenedPaths } from '../opened/opened-pictures.ts';
import { fileWord } from './file-name.ts';
import { resistPicture } from './resist-picture.ts';
import { openedId, picturesOf, resistName, summaryOf, writtenRecipe } from './written-recipe.ts';

/** A recipe that is to be written, with the resists that go beside it. */
export interface RecipeOrder {
  readonly path: string;
  readonly laying: Laying;
  readonly resists: Work['resists'];
  /** That its resists are drawn on. */
  readonly grid: Grid;
  readonly overwrite: boolean;
  readonly summary?: string;
}

/**
 * Writes a recipe as "tenter lay" takes it; its resists lie beside it as grey pictures, named by where they lie.
 *
 * @returns The resists that were written.
 * @throws Fault (output) where a name is taken and nothing may be replaced: nothing is then written.
 */
export async function saveRecipe(
  { shelf, artworks }: Pick<Desk, 'shelf' | 'artworks'>,
  { path, laying, resists, grid, overwrite, summary = summaryOf(laying) }: RecipeOrder,
): Promise<string[]> {
  renderedSteps(shelf, withOpenedPaths({ shelf, artworks }, laying));
  const folder = dirname(path);
  const placed = withOpenedPaths({ shelf, artworks }, laying, (picture) => pathFrom(folder, picture));
  const stem = path.slice(0, path.length - extname(path).length);
  const drawn: { readonly path: string; readonly samples: Uint8Array }[] = [];
  const paths = new Map<string, string>();
  for (const picture of picturesOf(laying)) {
    const name = resistName(picture);
    if (name === undefined) {
      paths.set(picture, artworks.pathOf(openedId(picture)));
      continue;
    }
    const beside = freeName(`${stem}-${fileWord(name)}`, [...paths.values()]);
    paths.set(picture, beside);
    drawn.push({ path: beside, samples: paintedResist(requireResist(resists, name), grid) });
  }
  for (const out of [path, ...drawn.map((one) => one.path)]) {
    await refuseInputs(out, artworks.paths);
    await refuseTaken(out, overwrite);
  }
  for (const one of drawn) await writePicture(one.path, resistPicture(one.samples, grid), { overwrite });
  const recipe = {
    $schema: schemaFrom(folder, 'recipe.schema.json'),
    ...writtenRecipe(placed, summary, folder, (picture) => paths.get(picture)!),
  };
  const text = `${JSON.stringify(recipe, null, 2)}\n`;
  await writeBeside(path, { overwrite }, (beside) => writeFile(beside, text));
  return drawn.map((one) => one.path);
}

/** From an installed package the way is long; then a plain address does. */
export function schemaFrom(folder: string, name: string): string {
  const schema = join(packageRoot, 'presets', name);
  const way = pathFrom(folder, schema);
  return way.split('/').filter((part) => part === '..').length <= 3 ? way : pathToFileURL(schema).href;
}

/** Two resists whose names come to the same word lie side by side. */
function freeName(stem: string, taken: readonly string[]): string {
  for (let number = 1; ; number++) {
    const name = `${stem}${number === 1 ? '' : `-${number}`}.png`;
    if (!taken.includes(name)) return name;
  }
}
