import { mapSome } from '../making/each.ts';
import type { Item } from '../plan/item.ts';
import type { Plan } from '../plan/plan.ts';
import { type Failure, readFailure } from './failures.ts';
import { writeInside } from './inside.ts';
import { REPORT_FILE, TIMES_FILE } from './output.ts';
import type { Sidecar } from './sidecar.ts';
import { lookForItems } from './standing.ts';
import { type Unclosed, unclosedOf, unlaidOf } from './unclosed.ts';

/** The report: what became of every item. It holds nothing of machines and hours, so shards merge to the same bytes. */
export interface Report {
  readonly summary: string;
  /** SHA-256 of the collection file. */
  readonly collection: string;
  readonly axes: readonly string[];
  readonly counts: Readonly<Record<'asked' | 'made' | 'failed' | 'missing' | 'open' | 'look', number>>;
  /** Those of the made that are open or want a look, by name. */
  readonly unclosed: readonly Unclosed[];
  /** The names of those in which the mask of a step took nothing. */
  readonly unlaid: readonly string[];
  /** By name. */
  readonly made: readonly Omit<Sidecar, 'run'>[];
  readonly failed: readonly Omit<Failure, 'command' | 'attempts'>[];
  readonly missing: readonly { readonly name: string; readonly address: string }[];
}

/** When and where each render was made, and what it took. */
export type ReportTimes = Readonly<Record<string, Sidecar['run']>>;

/** Gathers the report of a plan from the sidecars in its folder, whoever made them. */
export async function gatherReport(plan: Plan): Promise<{ report: Report; times: ReportTimes }> {
  const items = [...plan.items].sort((a, b) => (a.name < b.name ? -1 : 1));
  const { made: found, missing: absent } = await lookForItems(plan, items);
  const failures = await mapSome(absent, 16, (item) => readFailure(plan.folder, item));
  const failed = failures.filter((failure) => failure !== undefined);
  const missing = absent.filter((_, index) => failures[index] === undefined);
  const sidecars = items.map((item) => found.get(item)).filter((sidecar) => sidecar !== undefined);
  const made = sidecars.map(({ run, ...facts }) => facts);
  const unclosed = unclosedOf(made);
  const counts = {
    asked: items.length,
    made: made.length,
    failed: failed.length,
    missing: missing.length,
    open: unclosed.filter(({ grade }) => grade === 'open').length,
    look: unclosed.filter(({ grade }) => grade === 'look').length,
  };
  const report: Report = {
    summary: plan.summary,
    collection: plan.hash,
    axes: plan.axes,
    counts,
    unclosed,
    unlaid: unlaidOf(made),
    made,
    failed: failed.map(({ command, attempts, ...facts }) => facts),
    missing: missing.map(({ name, address }: Item) => ({ name, address })),
  };
  return { report, times: Object.fromEntries(sidecars.map(({ name, run }) => [name, run])) };
}

/** Writes the report into the output folder. @throws Fault (output). */
export async function writeReport(plan: Plan): Promise<Report> {
  const { report, times } = await gatherReport(plan);
  await put(plan.folder, REPORT_FILE, report);
  await put(plan.folder, TIMES_FILE, times);
  return report;
}

function put(folder: string, name: string, value: unknown): Promise<void> {
  return writeInside(folder, name, `${JSON.stringify(value, null, 2)}\n`);
}
