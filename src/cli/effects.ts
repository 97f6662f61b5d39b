import type { Command } from 'commander';
import type { Parameter } from '../effect/parameter.ts';
import { describeRange } from '../effect/values.ts';
import { recipeNames } from '../host/plugins/find-recipe.ts';
import { findPackages } from '../host/plugins/packages.ts';
import { findEffect, type Shelf, type ShelvedEffect } from '../host/plugins/shelf.ts';
import { jsonOption, pluginsOption, trustOption } from './options.ts';
import { type PluginFlags, shelfOf } from './shelf-of.ts';

/** Adds `tenter effects`. */
export function addEffects(program: Command): void {
  program
    .command('effects')
    .summary('list the effects and presets, or describe one effect')
    .description('Lists the effects with their presets, or describes one with all its parameters.')
    .argument('[name]', 'an effect to describe')
    .addOption(pluginsOption())
    .addOption(trustOption())
    .addOption(jsonOption())
    .action(async (name: string | undefined, flags: PluginFlags) => {
      const shelf = await shelfOf(flags);
      if (name !== undefined) printOne(findEffect(shelf, name), flags);
      else await printAll(shelf, flags);
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
  for (const [name, parameter] of Object.entries<Parameter>(effect.parameters)) {
    console.log(
      `  ${name}  ${describeRange(parameter)}; default ${parameter.default}\n      ${parameter.help}`,
    );
  }
  if (presets.length) console.log('\npresets:');
  for (const preset of presets) console.log(`  ${preset.name}  ${preset.summary}`);
}

function effectFacts({ effect, presets, place }: ShelvedEffect) {
  const { name, version, summary, planes, parameters, blend = 'normal' } = effect;
  return { name, version, summary, place, planes, blend, parameters, presets };
}
