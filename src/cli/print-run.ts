import { join } from 'node:path';
import { REPORT_FILE, type Report, type RunResult, type Saved } from '../collection/index.ts';
import type { OpenedPlan } from './collect-options.ts';
import { formatBytes, formatTime } from './figures.ts';
import { row } from './row.ts';
import { unclosedRows, unlaidRows } from './unclosed-rows.ts';

/** Prints what came of a run. */
export function printRun({ plan }: OpenedPlan, result: RunResult, report?: Report, json = false): void {
  if (json) {
    console.log(
      JSON.stringify({
        event: 'end',
        ...result,
        counts: report?.counts,
        unclosed: report?.unclosed,
        unlaid: report?.unlaid,
      }),
    );
    return;
  }
  const { made, kept, elsewhere, failed, left, seconds, peakBytes } = result;
  console.log(plan.summary);
  row(
    'made',
    `${made} in ${formatTime(seconds)}; ${kept} were there already${elsewhere ? `, ${elsewhere} were made meanwhile by another run` : ''}`,
  );
  const saved = wordsOfSaved(result.saved);
  if (saved) row('saved', saved);
  row('memory', `${formatBytes(peakBytes)} at most`);
  if (report) {
    for (const [label, text] of [...unclosedRows(report), ...unlaidRows(report)]) row(label, text);
    row('report', join(plan.folder, REPORT_FILE));
  }
  for (const { name, reason, command } of failed) {
    row('failed', `${name}: ${reason}`);
    row('', `alone: ${command}`);
  }
  if (left > 0) row('left', `${left} renders`);
  if (result.stopped === 'full')
    console.error(
      'tenter: the disk is full. Make room and run the same command again: it goes on where it stopped.',
    );
  if (result.stopped === 'cancelled')
    console.error('tenter: stopped. Run the same command again to go on; what is made stays.');
}

function wordsOfSaved({ decodes, tileChecks, prepares, paints }: Saved): string {
  const parts = [
    decodes && `${decodes} times reading a tile`,
    tileChecks && `${tileChecks} times checking one`,
    prepares && `${prepares} times preparing a texture`,
    paints && `${paints} times painting one`,
  ];
  return parts.filter(Boolean).join(', ');
}
