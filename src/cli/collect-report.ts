import { join } from 'node:path';
import type { Command } from 'commander';
import { REPORT_FILE, type Report, writeReport } from '../collection/index.ts';
import { addPlanFlags, openPlan, type PlanFlags } from './collect-options.ts';
import { EXIT } from './exit-codes.ts';
import { row } from './row.ts';
import { unclosedRows, unlaidRows } from './unclosed-rows.ts';

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

function printCounts(report: Report, path: string): void {
  const { counts, failed, missing } = report;
  console.log(`${counts.made} of ${counts.asked} renders are there`);
  for (const [label, text] of [...unclosedRows(report), ...unlaidRows(report)]) row(label, text);
  for (const { name, reason } of failed) row('failed', `${name}: ${reason}`);
  for (const { name } of missing.slice(0, 20)) row('missing', name);
  if (missing.length > 20) row('', `and ${missing.length - 20} more`);
  row('report', path);
}
