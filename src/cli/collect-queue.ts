import type { Command } from 'commander';
import { attend, type Item, PlanQueue, type QueueCounts } from '../collection/index.ts';
import { addPlanFlags, openPlan, type PlanFlags } from './collect-options.ts';
import { addRedisOption, type RedisFlags } from './collect-work.ts';
import { EXIT } from './exit-codes.ts';

interface QueueFlags extends PlanFlags, RedisFlags {
  readonly watch?: boolean;
  readonly drain?: boolean;
}

const LOOK_MS = 1000;

const NOTES = `
The queue is kept in Redis, by the optional packages bullmq and ioredis. Queueing twice does nothing twice. Workers on
any host that sees the same files take from it: "tenter collect work".`;

/** Adds `tenter collect queue`. */
export function addCollectQueue(collect: Command): void {
  const command = collect
    .command('queue')
    .summary('queue what is missing for workers on several machines')
    .description('Queues what is missing of a collection, for workers on any number of machines.')
    .option('--watch', 'stay and tell how far it is, until nothing waits or is under way')
    .option('--drain', 'take everything that waits, and what was set aside, out of the queue instead');
  addRedisOption(addPlanFlags(command)).addHelpText('after', NOTES).action(queue);
}

async function queue(file: string, flags: QueueFlags): Promise<void> {
  const { plan, items } = await openPlan(file, flags);
  const place = { url: flags.redis };
  const queue = await PlanQueue.open(plan, place);
  const say = (words: string) => console.error(`tenter: ${words}`);
  try {
    await attend(queue, place, say, () => fillOrDrain(queue, items, flags));
  } finally {
    queue.close();
  }
}

async function fillOrDrain(queue: PlanQueue, items: readonly Item[], flags: QueueFlags): Promise<void> {
  if (flags.drain) await queue.drain();
  else tell({ queued: await queue.add(items) }, flags);
  let counts = await queue.counts();
  tell(counts, flags);
  if (!flags.watch) return;
  while (counts.waiting + counts.underWay > 0) {
    await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
    counts = await queue.counts();
    tell(counts, flags);
  }
  await tellLeft(queue, items, flags);
}

/** A queue that is empty may have been emptied otherwise than by work. */
async function tellLeft(
  queue: PlanQueue,
  items: readonly Item[],
  { json, drain }: QueueFlags,
): Promise<void> {
  const meant = new Set(items);
  const left = (await queue.missing()).filter((item) => meant.has(item)).length;
  if (left === 0 || drain) return;
  if (json) console.log(JSON.stringify({ left }));
  else console.error(`tenter: ${left} renders are left, and no longer queued. Run the same command again.`);
  process.exitCode = EXIT.partly;
}

function tell(facts: QueueCounts | { readonly queued: number }, { json }: QueueFlags): void {
  if (json) console.log(JSON.stringify(facts));
  else if ('queued' in facts) console.log(`${facts.queued} renders queued`);
  else console.log(`${facts.waiting} wait, ${facts.underWay} under way, ${facts.setAside} set aside`);
}
