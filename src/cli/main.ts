#!/usr/bin/env node
import { Command, CommanderError } from 'commander';
import { Fault } from '../fault.ts';
import { packageVersion } from '../host/code/root.ts';
import { addCheck } from './check.ts';
import { addCollect } from './collect.ts';
import { addEffects } from './effects.ts';
import { EXIT, EXIT_HELP, exitCodeOf } from './exit-codes.ts';
import { addLay } from './lay.ts';
import { addMake } from './make.ts';
import { ownLines } from './own-lines.ts';
import { addProve } from './prove.ts';
import { addStart } from './start.ts';
import { addWatch } from './watch.ts';

// A reader that has seen enough, as in "tenter effects | head", is no fault of anybody.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

process.exitCode = await run(process.argv);

async function run(argv: string[]): Promise<number | undefined> {
  try {
    await buildProgram().parseAsync(argv);
    return typeof process.exitCode === 'number' ? process.exitCode : EXIT.ok;
  } catch (error) {
    return report(error, argv.includes('--json'));
  }
}

function buildProgram(): Command {
  const program = new Command('tenter')
    .description(
      'Lays made textures (woven, grained, painted) over artwork tiles that stand in repeat, and keeps every seam closed.',
    )
    .version(packageVersion)
    .showSuggestionAfterError()
    .addHelpText('after', `\n${EXIT_HELP}`)
    .exitOverride()
    .configureOutput({ outputError: (text, write) => write(`tenter: ${text.replace(/^error: /, '')}`) });
  for (const add of [addLay, addMake, addCheck, addEffects, addCollect, addStart, addWatch, addProve])
    add(program);
  for (const command of program.commands) command.addHelpText('after', `\n${EXIT_HELP}`);
  return program;
}

function report(error: unknown, json: boolean): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.ok : EXIT.usage;
  if (Fault.is(error)) {
    if (json) console.log(JSON.stringify({ fault: { message: error.message, ...error.toJSON() } }, null, 2));
    else console.error([`tenter: ${error.message}`, ...ownLines(error)].join('\n  '));
    return exitCodeOf(error.kind);
  }
  console.error(
    `tenter: a fault of tenter itself; please report it:\n${error instanceof Error ? error.stack : error}`,
  );
  return EXIT.bug;
}
