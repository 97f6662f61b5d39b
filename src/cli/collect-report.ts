import { join } from 'node:path';
import type { Command } from 'commander';
import { REPORT_FILE, type Report, writeReport } from '../collection/index.ts';
import { addPlanFlags, openPlan, type PlanFlags } from './collect-options.ts';
import { EXIT } from './exit-codes.ts';

/** Adds `tenter collect report`. */
export function addCollectReport(collect: Command): void {
  addPlanFlags(
    collect
      .command('report')
      .summary('write the report again from what is there, e.g. of all shards')
      .description('Writes the report again from what lies in the output folder, whoever made it.'),
  ).action(report);
}

async function report(file: string, flags: PlanFlags): Promise<void> {
  const { plan } = await openPlan(file, flags);
  const written = await writeReport(plan);
  if (flags.json) console.log(JSON.stringify(written, null, 2));
  else printCounts(written, join(plan.folder, REPORT_FILE));
  if (written.counts.failed + written.counts.missing > 0) process.exitCode = EXIT.partly;
}

function printCounts({ counts, failed, missing }: Report, path: string): void {
  console.log(`${counts.made} of ${counts.asked} renders are there; ${counts.open} do not close`);
  for (const { name, reason } of failed) console.log(`  failed   ${name}: ${reason}`);
  for (const { name } of missing.slice(0, 20)) console.log(`  missing  ${name}`);
  if (missing.length > 20) console.log(`  and ${missing.length - 20} more`);
  console.log(`  report   ${path}`);
}
