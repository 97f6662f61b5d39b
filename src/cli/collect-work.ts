import type { Command } from 'commander';
import { type WorkResult, workOnQueue, writeReport } from '../collection/index.ts';
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
  readonly waitForQueue?: number;
}

const NOTES = `
A queue out of reach is waited for, and told of. Where it stays away this ends with 3 and says how many renders are left:
run the same command again to go on. Jobs in the queue that are none of this program's are set aside, named and counted.`;

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
    )
    .option(
      '--wait-for-queue <seconds>',
      'how long to wait for a queue that is out of reach; default 60',
      (text) => numberBetween(text, 1, 86_400, '--wait-for-queue'),
    );
  addRunFlags(addRedisOption(addPlanFlags(command)))
    .addHelpText('after', NOTES)
    .action(work);
}

async function work(file: string, flags: WorkFlags): Promise<void> {
  const opened = await openPlan(file, flags);
  const teller = runTeller(flags);
  const { goneAfter, stay, waitForQueue, redis: url } = flags;
  const result = await untilStopped((signal) =>
    workOnQueue(opened.plan, {
      ...settingsOf(flags),
      url,
      goneAfter,
      stay,
      queueSeconds: waitForQueue,
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
  tellQueue(result, flags);
  // What failed on other workers is not made either.
  process.exitCode ||= result.left + (report?.counts.failed ?? 0) > 0 ? EXIT.partly : EXIT.ok;
}

/** What the queue was like; the rest is told as of any run. */
function tellQueue({ setAside, lost, stopped, left }: WorkResult, { json }: WorkFlags): void {
  if (setAside > 0 && !json) console.log(`  aside    ${setAside} jobs in the queue were none of ours`);
  if (!lost || stopped || left === 0) return;
  if (!json) console.error(`tenter: ${lost.message}`);
  process.exitCode = EXIT.input;
}
