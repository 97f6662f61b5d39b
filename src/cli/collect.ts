import type { Command } from 'commander';
import { addCollectPlan } from './collect-plan.ts';
import { addCollectQueue } from './collect-queue.ts';
import { addCollectReport } from './collect-report.ts';
import { addCollectRun } from './collect-run.ts';
import { addCollectSheet } from './collect-sheet.ts';
import { addCollectStart } from './collect-start.ts';
import { addCollectWork } from './collect-work.ts';
import { EXIT_HELP } from './exit-codes.ts';

const EXAMPLES = `
Examples:
  tenter collect start artwork --out spring.json     a collection file for the pictures in a folder
  tenter collect plan spring.json                    what it comes to, before anything is rendered
  tenter collect run spring.json                     render what is missing; stop and go on as you like
  tenter collect run spring.json --only chosen.txt --dpi 300   the chosen ones at print size`;

/** Adds `tenter collect` and its verbs. */
export function addCollect(program: Command): void {
  const collect = program
    .command('collect')
    .description(
      'Renders a collection: many tiles, each in several recipes, strengths and seeds, from one file.',
    )
    .addHelpText('after', EXAMPLES);
  for (const add of [
    addCollectStart,
    addCollectPlan,
    addCollectRun,
    addCollectReport,
    addCollectSheet,
    addCollectQueue,
    addCollectWork,
  ])
    add(collect);
  for (const command of collect.commands) command.addHelpText('after', `\n${EXIT_HELP}`);
}
