import { extname, join, relative } from 'node:path';
import type { Command } from 'commander';
import { Fault } from '../fault.ts';
import { startEffect } from '../host/author/start-effect.ts';
import { startRecipe } from '../host/author/start-recipe.ts';
import { recipeNames } from '../host/plugins/find-recipe.ts';
import { openShelf, type Shelf } from '../host/plugins/shelf.ts';
import { jsonOption } from './options.ts';

interface StartFlags {
  readonly in: string;
  readonly package?: boolean;
  readonly effect?: string;
  readonly preset?: string;
  readonly json?: boolean;
}

const EXAMPLES = `
Examples:
  tenter start frosted-glass
  tenter start frosted-glass --in ~/effects --package
  tenter start my-recipe.json --effect linen-weave --preset dinner-cloth

The new effect strews petals; a recipe begins with one step and says in remarks what more there can be. Change
what you like: it is yours.`;

/** Adds `tenter start`. */
export function addStart(program: Command): void {
  program
    .command('start')
    .description(
      'Makes a folder with a new effect that works, to be changed: the effect, a test, a preset and a README. For a name that ends in .json: a recipe file.',
    )
    .argument('<name>', 'what it shall be called: lower case words with hyphens; or a recipe file (.json)')
    .option('--in <folder>', 'where the new folder goes', '.')
    .option('--package', 'make it an npm package of its own, to be published')
    .option('--effect <name>', 'for a recipe: the effect that it begins with')
    .option('--preset <name>', 'for a recipe: a preset of that effect')
    .addOption(jsonOption())
    .addHelpText('after', EXAMPLES)
    .action(start);
}

async function start(name: string, flags: StartFlags): Promise<void> {
  const shelf = await openShelf();
  if (extname(name) === '.json') return startRecipeFile(name, flags, shelf);
  if ((flags.effect ?? flags.preset) !== undefined) throw recipeOnly(name);
  const { effects } = shelf;
  const taken = [...effects.keys(), ...(await recipeNames())];
  const report = await startEffect({ name, parent: flags.in, asPackage: flags.package, taken });
  if (flags.json) {
    console.log(JSON.stringify(report, null, 2));
    return;
  }
  const { folder, files, notes } = report;
  const place = `./${relative(process.cwd(), folder)}`;
  console.log(`${name} is in ${place}: ${files.join(', ')}`);
  for (const note of notes) console.log(`  note: ${note}`);
  const nearer = flags.package
    ? `\n  cd ${place} && npm install && npm test   # the same in its own test`
    : '';
  console.log(`Now
  tenter watch ${place}   # edit ${join(place, 'index.ts')}; every save is drawn
  tenter make ${name} --plugins ${place} --size 100x100mm
  tenter prove ${place}${nearer}`);
}

async function startRecipeFile(name: string, flags: StartFlags, shelf: Shelf): Promise<void> {
  const { effect, preset } = flags;
  if (effect === undefined) throw missingEffect(shelf);
  const file = join(flags.in, name);
  await startRecipe({ file, effect, preset, shelf });
  if (flags.json) console.log(JSON.stringify({ file }, null, 2));
  else
    console.log(`a recipe is in ${file}. Now
  tenter effects ${file}   # says in words what it does
  tenter lay ${file} YOUR-TILE.png`);
}

function missingEffect({ effects }: Shelf): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'the effect that the recipe begins with',
    subject: '--effect',
    received: 'nothing',
    remedy: `Add for example --effect linen-weave. There are: ${[...effects.keys()].join(', ')}.`,
    saying: 'A recipe begins with an effect.',
  });
}

function recipeOnly(name: string): Fault {
  return new Fault({
    kind: 'usage',
    expected: 'a recipe file (.json)',
    subject: '--effect and --preset',
    received: `"${name}"`,
    remedy: `For a recipe write ${name}.json; a new effect needs neither.`,
    saying: '--effect and --preset are for recipes.',
  });
}
