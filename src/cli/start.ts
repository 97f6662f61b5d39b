import { join, relative } from 'node:path';
import type { Command } from 'commander';
import { startEffect } from '../host/author/start-effect.ts';
import { recipeNames } from '../host/plugins/find-recipe.ts';
import { openShelf } from '../host/plugins/shelf.ts';
import { jsonOption } from './options.ts';

interface StartFlags {
  readonly in: string;
  readonly package?: boolean;
  readonly json?: boolean;
}

const EXAMPLES = `
Examples:
  tenter start frosted-glass
  tenter start frosted-glass --in ~/effects --package

The new effect strews petals. Change what you like: it is yours.`;

/** Adds `tenter start`. */
export function addStart(program: Command): void {
  program
    .command('start')
    .summary('start a new effect of your own')
    .description(
      'Makes a folder with a new effect that works, to be changed: the effect, a test, a preset and a README.',
    )
    .argument('<name>', 'what it shall be called: lower case words with hyphens')
    .option('--in <folder>', 'where the new folder goes', '.')
    .option('--package', 'make it an npm package of its own, to be published')
    .addOption(jsonOption())
    .addHelpText('after', EXAMPLES)
    .action(start);
}

async function start(name: string, flags: StartFlags): Promise<void> {
  const { effects } = await openShelf();
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
