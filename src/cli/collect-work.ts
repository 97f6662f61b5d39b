import type { Command } from 'commander';
import { workOnQueue, writeReport } from '../collection/index.ts';
import { addPlanFlags, openPlan } from './collect-options.ts';
import { addRunFlags, finish, type RunFlags, settingsOf } from './collect-run.ts';
import { EXIT } from './exit-codes.ts';
import { numberBetween } from './options.ts';
import { runTeller } from './run-teller.ts';
import { untilStopped } from './stop-signals.ts';

export interface RedisFlags {
  readonly redis: string;
}

interface WorkFlags extends RunFlags, RedisFlags {
  readonly goneAfter?: number;
  readonly stay?: boolean;
}

/** Adds the address of the queue. */
export function addRedisOption(command: Command): Command {
  return command.option('--redis <url>', 'the Redis server', 'redis://localhost:6379');
}

/** Adds `tenter collect work`. */
export function addCollectWork(collect: Command): void {
  const command = collect
    .command('work')
    .summary('take renders from the queue until all are made')
    .description(
      'Takes renders of a collection from the queue, beside any number of other workers, until all are made.',
    )
    .option('--stay', 'wait for more once all is made')
    .option(
      '--gone-after <seconds>',
      'give the renders of a worker that was not heard of for so long to others; default 15',
      (text) => numberBetween(text, 1, 3600, '--gone-after'),
    );
  addRunFlags(addRedisOption(addPlanFlags(command))).action(work);
}

async function work(file: string, flags: WorkFlags): Promise<void> {
  const opened = await openPlan(file, flags);
  const teller = runTeller(flags);
  const { goneAfter, stay, redis: url } = flags;
  const result = await untilStopped((signal) =>
    workOnQueue(opened.plan, {
      ...settingsOf(flags),
      url,
      goneAfter,
      stay,
      shelf: opened.shelf,
      signal,
      onEvent: teller.hear,
    }),
  );
  teller.end();
  const report = await writeReport(opened.plan);
  finish(opened, result, report, flags);
  // What failed on other workers is not made either.
  if (!result.stopped && report.counts.failed > 0) process.exitCode = EXIT.partly;
}
