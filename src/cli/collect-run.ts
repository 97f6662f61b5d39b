import type { Command } from 'commander';
import { type Report, type RunResult, type RunSettings, runItems, writeReport } from '../collection/index.ts';
import { Fault } from '../fault.ts';
import {
  addPlanFlags,
  type OpenedPlan,
  openPlan,
  type PlanFlags,
  parseMemory,
  wholeNumber,
} from './collect-options.ts';
import { EXIT } from './exit-codes.ts';
import { timeLimitOption } from './options.ts';
import { printWarnings } from './plan-warnings.ts';
import { printRun } from './print-run.ts';
import { runTeller } from './run-teller.ts';
import { untilStopped } from './stop-signals.ts';

export interface RunFlags extends PlanFlags {
  readonly workers?: number;
  readonly memory?: number;
  readonly overwrite?: boolean;
  readonly timeLimit?: number;
  readonly waitForRoom?: number;
}

const NOTES = `
What is there already, from the same inputs, is not made again. Stop it at any time (Ctrl-C, or worse) and run the
same command to go on. With --json every event is one line.`;

/** Adds `tenter collect run`. */
export function addCollectRun(collect: Command): void {
  const command = collect
    .command('run')
    .summary('render what is missing of a collection')
    .description('Renders what is missing of a collection, and writes a report.');
  addRunFlags(addPlanFlags(command)).addHelpText('after', NOTES).action(run);
}

/** Adds the options for those who do the work. */
export function addRunFlags(command: Command): Command {
  return command
    .option(
      '--workers <count>',
      'threads to use; default all cores; the bytes are the same for any number',
      wholeNumber,
    )
    .option(
      '--memory <amount>',
      'memory that may be used, e.g. 4GB; default half of the machine',
      parseMemory,
    )
    .addOption(timeLimitOption())
    .option('--wait-for-room <seconds>', 'how long to wait where the disk is full; default 15', seconds)
    .option(
      '--overwrite',
      'give the names of files that this program did not make to renders; they are kept beside under another',
    );
}

async function run(file: string, flags: RunFlags): Promise<void> {
  const opened = await openPlan(file, flags);
  printWarnings(opened.plan, flags.json);
  const teller = runTeller(flags);
  const result = await untilStopped((signal) =>
    runItems(opened.plan, opened.items, {
      ...settingsOf(flags),
      shelf: opened.shelf,
      signal,
      onEvent: teller.hear,
    }),
  );
  teller.end();
  const report = await writeReport(opened.plan).catch((error) => {
    if (result.stopped !== 'full') throw error;
    console.error('tenter: warning: there was no room for the report either');
  });
  finish(opened, result, report ?? undefined, flags);
}

/** What the options ask of a run. */
export function settingsOf(flags: RunFlags): Omit<RunSettings, 'shelf'> {
  const { workers, memory, overwrite, verify, plugins, timeLimit, waitForRoom } = flags;
  return { workers, memory, overwrite, verify, plugins, secondsPerCall: timeLimit, roomSeconds: waitForRoom };
}

/** Says what came of it, and sets the exit code. */
export function finish(
  opened: OpenedPlan,
  result: RunResult,
  report: Report | undefined,
  flags: PlanFlags,
): void {
  printRun(opened, result, report, flags.json);
  if (result.stopped === 'full') process.exitCode = EXIT.output;
  else if (result.stopped === 'cancelled') process.exitCode = EXIT.cancelled;
  else if (result.failed.length > 0) process.exitCode = EXIT.partly;
}

function seconds(text: string): number {
  const value = Number(text);
  if (text.trim() !== '' && value >= 0 && value < 1e7) return value;
  throw new Fault({
    kind: 'usage',
    expected: 'seconds from 0',
    subject: '--wait-for-room',
    received: `"${text}"`,
  });
}
