#!/usr/bin/env node
import { Command, CommanderError } from 'commander';
import { Fault } from '../fault.ts';
import { packageVersion } from '../host/code/root.ts';
import { addCommands } from './commands.ts';
import { compileInTurn } from './compile-in-turn.ts';
import { EXIT, EXIT_HELP, exitCodeOf } from './exit-codes.ts';
import { ownLines } from './own-lines.ts';
import { printVisibly, visible } from './visible.ts';

// A reader that has seen enough, as in "tenter effects | head", is no fault of anybody.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

compileInTurn();
printVisibly(console);

process.exitCode = await run(process.argv);

async function run(argv: string[]): Promise<number | undefined> {
  try {
    const program = await buildProgram(argv.slice(2));
    await program.parseAsync(argv);
    return typeof process.exitCode === 'number' ? process.exitCode : EXIT.ok;
  } catch (error) {
    return report(error, argv.includes('--json'));
  }
}

async function buildProgram(asked: readonly string[]): Promise<Command> {
  const program = new Command('tenter')
    .description(
      'Lays made textures (woven, grained, painted) over artwork tiles that stand in repeat, and keeps every seam closed.',
    )
    .version(packageVersion)
    .showSuggestionAfterError()
    .addHelpText('after', `\n${EXIT_HELP}`)
    .exitOverride()
    .configureOutput({
      outputError: (text, write) => write(visible(`tenter: ${text.replace(/^error: /, '')}`)),
    });
  await addCommands(program, asked);
  for (const command of program.commands) command.addHelpText('after', `\n${EXIT_HELP}`);
  return program;
}

function report(error: unknown, json: boolean): number {
  if (error instanceof CommanderError) {
    if (error.exitCode === 0) return EXIT.ok;
    // In words it stands on stderr already.
    if (json) printFault({ kind: 'usage', message: error.message.replace(/^error: /, '') });
    return EXIT.usage;
  }
  if (Fault.is(error)) {
    if (json) printFault({ message: error.message, ...error.toJSON() });
    else console.error([`tenter: ${error.message}`, ...ownLines(error)].join('\n  '));
    return exitCodeOf(error.kind);
  }
  console.error(
    `tenter: a fault of tenter itself; please report it:\n${error instanceof Error ? error.stack : error}`,
  );
  if (json) printFault({ kind: 'bug', message: error instanceof Error ? error.message : String(error) });
  return EXIT.bug;
}

/** For scripts, on stdout, whatever the failure. */
function printFault(fault: object): void {
  console.log(JSON.stringify({ fault }, null, 2));
}
