import { basename, extname } from 'node:path';
import type { NamedRecipe } from '../../../collection/file/recipes.ts';
import { Fault } from '../../../fault.ts';
import { findRecipe, recipeNames } from '../../../host/plugins/find-recipe.ts';
import { openRecipe } from '../../../host/plugins/open-recipe.ts';
import type { Recipe } from '../../../host/plugins/recipe.ts';
import type { Shelf, ShelvedEffect } from '../../../host/plugins/shelf.ts';
import type { OfferedEffect, OfferedRecipe } from '../../words/begin.ts';
import { type Laying, OPENED } from '../../words/work.ts';
import type { Artworks } from './artworks.ts';
import { withOpenedNames } from './opened-pictures.ts';

/** An effect without the places that it came from. */
export function offerEffect({ effect, presets }: ShelvedEffect): OfferedEffect {
  return { effect, presets: presets.map((preset) => ({ ...preset, file: basename(preset.file) })) };
}

/** The recipes that come with the package; one that cannot be read is told and left out. */
export async function offerRecipes(
  shelf: Shelf,
  artworks: Artworks,
  tell: (words: string) => void,
): Promise<OfferedRecipe[]> {
  const offered: OfferedRecipe[] = [];
  for (const name of await recipeNames()) {
    try {
      offered.push(await offerRecipeFile(await findRecipe(name, shelf), shelf, artworks));
    } catch (error) {
      if (!Fault.is(error)) throw error;
      tell(error.message);
    }
  }
  return offered;
}

/** A recipe file of the person's. @throws Fault (input) that lists all that is wrong with it. */
export async function offerRecipeFile(
  path: string,
  shelf: Shelf,
  artworks: Artworks,
): Promise<OfferedRecipe> {
  const recipe = await openRecipe(path, shelf);
  const laying = await layingOf(recipe, shelf, artworks);
  return {
    name: basename(path, extname(path)),
    summary: recipe.summary + leftOut(recipe.screens?.count),
    laying,
  };
}

/** A recipe of a collection. */
export async function offerNamed(
  recipe: NamedRecipe,
  shelf: Shelf,
  artworks: Artworks,
): Promise<OfferedRecipe> {
  const summary = recipe.name + leftOut(recipe.screens?.wish.count);
  return { name: recipe.name, summary, laying: await layingOf(recipe, shelf, artworks) };
}

/** What the page does not show of a recipe with screens. */
function leftOut(count?: number): string {
  return count === undefined
    ? ''
    : ` (here in continuous tone; "tenter lay" and collections print it within ${count === 1 ? 'one screen' : `${count} screens`})`;
}

/** Drawn in the artwork's own colours it would be another design. */
function unshown(): Fault {
  return new Fault({
    kind: 'input',
    expected: 'a recipe without a colourway',
    subject: 'the page',
    received: 'one that is laid in a colourway',
    saying: 'The page shows artwork in its own colours alone, and this recipe is laid in a colourway.',
    remedy:
      'Lay it with "tenter lay RECIPE TILE", or open the tile that "tenter colourways" wrote with a recipe without "colourway".',
  });
}

/** A recipe under work: the pictures that it names are opened, so that the page can name them. */
async function layingOf(
  {
    steps,
    follow,
    light,
    colourway,
  }: Pick<NamedRecipe, 'steps' | 'follow'> & Pick<Recipe, 'light' | 'colourway'>,
  shelf: Shelf,
  artworks: Artworks,
): Promise<Laying> {
  if (colourway) throw unshown();
  const laid: Laying['steps'][number][] = [];
  const admit = (path: string) => artworks.admitNamed(path);
  for (const [index, written] of steps.entries()) {
    const step = await withOpenedNames(written, shelf, admit);
    const { picture } = step.mask ?? {};
    const mask =
      picture === undefined ? step.mask : { ...step.mask, picture: `${OPENED}${await admit(picture)}` };
    laid.push({ ...step, mask, id: `step-${index + 1}` });
  }
  return { steps: laid, seed: '1', follow, light };
}
