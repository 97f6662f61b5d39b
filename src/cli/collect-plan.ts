import { availableParallelism } from 'node:os';
import type { Command } from 'commander';
import {
  estimate,
  type Item,
  lookForItems,
  type Plan,
  pixelsOf,
  type Standings,
} from '../collection/index.ts';
import { formatLayout } from '../repeat/layout.ts';
import { formatDensity, formatSize, trimNumber } from '../repeat/length.ts';
import { addPlanFlags, openPlan, type PlanFlags } from './collect-options.ts';
import { formatBytes, formatTime } from './figures.ts';
import { printWarnings } from './plan-warnings.ts';

interface Flags extends PlanFlags {
  readonly list?: boolean;
}

/** Adds `tenter collect plan`. */
export function addCollectPlan(collect: Command): void {
  addPlanFlags(
    collect
      .command('plan')
      .summary('say what a collection comes to, before anything is rendered')
      .description(
        'Says how many renders a collection comes to, what they will take, and which are there already.',
      ),
  )
    .option('--list', 'name every render as well')
    .action(plan);
}

async function plan(file: string, flags: Flags): Promise<void> {
  const opened = await openPlan(file, flags);
  const standings = await lookForItems(opened.plan, opened.items, flags.verify);
  const facts = factsOf(opened.plan, opened.items, standings);
  if (flags.json)
    console.log(
      JSON.stringify({ ...facts, items: opened.items.map((item) => itemFacts(item, standings)) }, null, 2),
    );
  else printPlan(opened.plan, opened.items, standings, facts, flags.list);
  if (!flags.json) printWarnings(opened.plan);
}

function factsOf(plan: Plan, items: readonly Item[], { made, missing }: Standings) {
  const { pixels, seconds, bytes, measured } = estimate(missing, made.values(), availableParallelism());
  return {
    summary: plan.summary,
    folder: plan.folder,
    renders: items.length,
    leftOut: plan.leftOut,
    warnings: plan.warnings,
    made: made.size,
    missing: missing.length,
    megapixels: pixels / 1e6,
    estimate: { seconds, bytes, measured },
  };
}

function itemFacts(item: Item, { made }: Standings) {
  const { name, address, labels, inputs } = item;
  return { name, address, labels, made: made.has(item), megapixels: pixelsOf(item) / 1e6, inputs };
}

function printPlan(
  plan: Plan,
  items: readonly Item[],
  standings: Standings,
  facts: ReturnType<typeof factsOf>,
  list = false,
): void {
  const { missing, made, leftOut, megapixels } = facts;
  const { seconds, bytes, measured } = facts.estimate;
  const row = (label: string, text: string) => console.log(`  ${label.padEnd(9)} ${text}`);
  console.log(plan.summary);
  for (const tile of plan.tiles.slice(0, list ? Infinity : 12)) {
    const size = tile.size
      ? `${formatSize(tile.size)}, ${formatDensity(tile.width / tile.size.width)}, `
      : '';
    row('tile', `${tile.name}: ${tile.width} x ${tile.height} px, ${size}${formatLayout(tile.layout)}`);
  }
  if (!list && plan.tiles.length > 12) row('', `and ${plan.tiles.length - 12} more`);
  if (plan.axes.length) row('varied', plan.axes.join(', '));
  row('renders', `${items.length}${leftOut ? ` (${leftOut} left out by rule)` : ''}`);
  row('there', `${made} of them, in ${plan.folder}`);
  row('to do', `${missing}, ${trimNumber(megapixels, 1)} megapixels`);
  if (missing) {
    const source = measured ? 'by what is there' : 'a first guess';
    row('takes', `about ${formatTime(seconds)} and ${formatBytes(bytes)} of disk (${source})`);
  }
  if (list)
    for (const item of items)
      row(standings.made.has(item) ? 'there' : 'to do', `${item.name}  ${item.address.slice(0, 8)}`);
}
