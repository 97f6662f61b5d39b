import type { Command } from 'commander';
import type { Parameter } from '../effect/parameter.ts';
import { describeRange } from '../effect/values.ts';
import { recipeNames } from '../host/find-recipe.ts';
import { findEffect, openShelf, type Shelf, type ShelvedEffect } from '../host/shelf.ts';
import { jsonOption, pluginsOption } from './options.ts';

interface EffectsFlags {
  readonly plugins: readonly string[];
  readonly json?: boolean;
}

/** Adds `tenter effects`. */
export function addEffects(program: Command): void {
  program
    .command('effects')
    .summary('list the effects and presets, or describe one effect')
    .description('Lists the effects with their presets, or describes one with all its parameters.')
    .argument('[name]', 'an effect to describe')
    .addOption(pluginsOption())
    .addOption(jsonOption())
    .action(async (name: string | undefined, flags: EffectsFlags) => {
      const shelf = await openShelf(flags.plugins);
      if (name !== undefined) printOne(findEffect(shelf, name), flags);
      else await printAll(shelf, flags);
    });
}

async function printAll(shelf: Shelf, { json }: EffectsFlags): Promise<void> {
  const recipes = await recipeNames();
  const effects = [...shelf.effects.values()];
  if (json) {
    console.log(
      JSON.stringify({ effects: effects.map(effectFacts), recipes, notLoaded: shelf.faults }, null, 2),
    );
    return;
  }
  for (const { effect, presets } of effects) {
    console.log(`${effect.name}  ${effect.version}\n  ${effect.summary}`);
    if (presets.length) console.log(`  presets: ${presets.map(({ name }) => name).join(', ')}`);
  }
  if (recipes.length) console.log(`recipes: ${recipes.join(', ')}`);
  for (const fault of shelf.faults) console.error(`tenter: not loaded: ${fault.message}`);
}

function printOne(shelved: ShelvedEffect, { json }: EffectsFlags): void {
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
