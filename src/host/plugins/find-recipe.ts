import { readdir } from 'node:fs/promises';
import { basename, extname, join } from 'node:path';
import { Fault } from '../../fault.ts';
import { packageRoot } from '../code/root.ts';
import { type Shelf, suggestEffect } from './shelf.ts';

const RECIPE_FOLDER = join(packageRoot, 'presets', 'recipes');

/** True for a word that can only be a path: an effect's name has neither dot nor slash. */
export function looksLikeFile(target: string): boolean {
  return extname(target) === '.json' || target.includes('/') || target.includes('\\');
}

/** The names of the recipes that come with the package. */
export async function recipeNames(): Promise<string[]> {
  const files = await readdir(RECIPE_FOLDER).catch(() => [] as string[]);
  return files
    .filter((file) => file.endsWith('.json'))
    .map((file) => basename(file, '.json'))
    .sort();
}

/**
 * The file of a recipe that comes with the package.
 *
 * @throws Fault (usage) that suggests the nearest effect or recipe where there is none.
 */
export async function findRecipe(name: string, shelf: Shelf): Promise<string> {
  const recipes = await recipeNames();
  if (recipes.includes(name)) return join(RECIPE_FOLDER, `${name}.json`);
  const broken = shelf.faults.map((fault) => ` Not loaded: ${fault.message}`).join('');
  throw new Fault({
    kind: 'usage',
    expected: 'an effect, a recipe, or the path of a recipe file',
    subject: 'what to lay',
    received: `"${name}"`,
    remedy: suggestEffect(name, [...shelf.effects.keys(), ...recipes], shelf) + broken,
    saying: `No effect or recipe is called "${name}".`,
  });
}
