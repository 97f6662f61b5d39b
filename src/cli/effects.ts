import { basename } from 'node:path';
import type { Command } from 'commander';
import { describeRange } from '../effect/describe-range.ts';
import type { Parameter, ParameterSet } from '../effect/parameter.ts';
import { type Slot, sentencesOf } from '../effect/sentence.ts';
import { spokenValue } from '../effect/value.ts';
import { valueWords } from '../effect/value-words.ts';
import { describeRecipe } from '../host/author/describe-recipe.ts';
import { findRecipe, looksLikeFile, recipeNames } from '../host/plugins/find-recipe.ts';
import { openRecipe } from '../host/plugins/open-recipe.ts';
import { findPackages } from '../host/plugins/packages.ts';
import { findEffect, type Shelf, type ShelvedEffect } from '../host/plugins/shelf.ts';
import type { EffectDescription } from '../render/description.ts';
import { jsonOption, pluginsOption, trustOption } from './options.ts';
import { type PluginFlags, shelfOf } from './shelf-of.ts';

/** Adds `tenter effects`. */
export function addEffects(program: Command): void {
  program
    .command('effects')
    .description(
      'Lists the effects with their presets and the recipes, or describes one: an effect with all its parameters, a recipe with its steps.',
    )
    .argument('[name]', 'an effect or a recipe to describe, or a recipe file (.json)')
    .addOption(pluginsOption())
    .addOption(trustOption())
    .addOption(jsonOption())
    .action(async (name: string | undefined, flags: PluginFlags) => {
      const shelf = await shelfOf(flags);
      if (name === undefined) await printAll(shelf, flags);
      else if (!looksLikeFile(name) && shelf.effects.has(name)) printOne(findEffect(shelf, name), flags);
      else await printRecipe(looksLikeFile(name) ? name : await findRecipe(name, shelf), shelf, flags);
    });
}

async function printAll(shelf: Shelf, { json }: PluginFlags): Promise<void> {
  const recipes = await recipeNames();
  const packages = await findPackages(process.cwd());
  const effects = [...shelf.effects.values()];
  if (json) {
    console.log(
      JSON.stringify(
        { effects: effects.map(effectFacts), recipes, packages, notLoaded: shelf.faults },
        null,
        2,
      ),
    );
    return;
  }
  for (const { effect, presets } of effects) {
    console.log(`${effect.name}  ${effect.version}\n  ${effect.summary}`);
    if (presets.length) console.log(`  presets: ${presets.map(({ name }) => name).join(', ')}`);
  }
  if (recipes.length) console.log(`recipes: ${recipes.join(', ')}`);
  for (const { name, version, entries } of packages) {
    console.log(
      `package: ${name} ${version} (${entries.length === 1 ? 'one effect' : `${entries.length} effects`}); --plugins ${name}`,
    );
  }
}

function printOne(shelved: ShelvedEffect, { json }: PluginFlags): void {
  if (json) {
    console.log(JSON.stringify(effectFacts(shelved), null, 2));
    return;
  }
  const { effect, presets, place } = shelved;
  console.log(
    `${effect.name}  ${effect.version}\n  ${effect.summary}\n  paints ${effect.planes.join(', ')}; from ${place}\n`,
  );
  if (effect.sentences) console.log(`${ownSentences(effect).join('\n')}\n`);
  for (const [name, parameter] of Object.entries<Parameter>(effect.parameters)) {
    console.log(
      `  ${name}  ${describeRange(parameter)}; default ${spokenValue(parameter.default)}\n      ${parameter.help}`,
    );
  }
  if (presets.length) console.log('\npresets:');
  for (const preset of presets) console.log(`  ${preset.name}  ${preset.summary}`);
}

/** Its own sentences, as they read at the defaults. */
function ownSentences(effect: EffectDescription): string[] {
  const own = sentencesOf(effect).filter(({ isRest }) => !isRest);
  return own.map(({ parts }) => `  ${parts.map((part) => wordsOf(part, effect.parameters)).join('')}`);
}

function wordsOf(part: string | Slot, parameters: ParameterSet): string {
  if (typeof part === 'string') return part;
  const parameter = parameters[part.parameter];
  return valueWords(parameter, parameter.default, part);
}

async function printRecipe(file: string, shelf: Shelf, { json }: PluginFlags): Promise<void> {
  const recipe = await openRecipe(file, shelf);
  const name = basename(file, '.json');
  if (json) console.log(JSON.stringify({ name, file, ...recipe }, null, 2));
  else console.log(`${name}, a recipe in ${file}\n  ${describeRecipe(recipe, shelf).join('\n')}`);
}

function effectFacts({ effect, presets, place }: ShelvedEffect) {
  const { name, version, summary, sentences, planes, parameters, blend = 'normal' } = effect;
  return { name, version, summary, sentences, place, planes, blend, parameters, presets };
}
