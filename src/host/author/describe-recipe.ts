import { spokenValue } from '../../effect/value.ts';
import { lightOf, wordsOfLight } from '../../render/light-words.ts';
import type { Recipe, RecipeStep } from '../plugins/recipe.ts';
import type { Shelf } from '../plugins/shelf.ts';

/** A recipe in sentences, a line each: what it looks like, then its steps and what differs in them. */
export function describeRecipe({ summary, follow, light, steps }: Recipe, shelf: Shelf): string[] {
  const reflected = follow && [`  In reflected layouts the texture follows the ${follow}.`];
  const said = lightOf(light);
  const lit = said && [`  Raised surfaces are lit ${wordsOfLight(said)}.`];
  return [
    summary,
    ...(reflected ?? []),
    ...(lit ?? []),
    ...steps.map((step, index) => stepLine(step, index, shelf)),
  ];
}

function stepLine(step: RecipeStep, index: number, shelf: Shelf): string {
  const { effect, preset, parameters = {}, blend, opacity, paper, seed } = step;
  const summary = shelf.effects.get(effect)?.presets.find(({ name }) => name === preset)?.summary;
  const values = Object.entries(parameters).map(([name, value]) => `${name} ${spokenValue(value)}`);
  const parts = [
    preset === undefined ? effect : `${effect} in the preset ${preset}${summary ? ` (${summary})` : ''}`,
    values.length > 0 && `with ${values.join(', ')}`,
    blend && `laid as ${blend}`,
    opacity !== undefined && `at ${Math.round(opacity * 1000) / 10} % of its strength`,
    paper && `on paper of ${paper}`,
    seed !== undefined && `with the seed ${seed}`,
    maskWords(step),
  ];
  return `  ${index + 1}. ${parts.filter(Boolean).join(', ')}`;
}

function maskWords({ mask }: RecipeStep): string | undefined {
  if (!mask) return undefined;
  const where = mask.colours ? `on ${mask.colours.join(' and ')}` : `where ${mask.picture} is white`;
  return mask.spare ? `everywhere but ${where}` : `only ${where}`;
}
