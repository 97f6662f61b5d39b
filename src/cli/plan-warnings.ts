import type { Plan } from '../collection/index.ts';

/** Warnings that are printed; with --json all are. */
const MOST_PRINTED = 10;

/** Prints what should be looked at before a collection is made: words to stderr, or an event each. */
export function printWarnings({ warnings }: Pick<Plan, 'warnings'>, json = false): void {
  if (json) {
    for (const warning of warnings) console.log(JSON.stringify({ event: 'warning', ...warning }));
    return;
  }
  for (const { line, words } of warnings.slice(0, MOST_PRINTED))
    console.error(`tenter: warning: line ${line}, ${words}`);
  const more = warnings.length - MOST_PRINTED;
  if (more > 0) console.error(`tenter: warning: and ${more} more; "tenter collect plan --json" has all`);
}
