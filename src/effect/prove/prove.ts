import type { AnyEffect } from '../effect.ts';
import { type Bench, type BenchOptions, openBench } from './bench.ts';
import type { Check } from './check.ts';
import { CHECKS } from './checks/index.ts';
import { explained } from './explain-unsound.ts';
import { Failed, Refused } from './failed.ts';
import type { CheckName, CheckResult, ProofReport, Verdict } from './report.ts';

export interface ProveOptions extends BenchOptions {
  /** Only these checks; all where absent. */
  readonly checks?: readonly CheckName[];
  /** Told of each check once it has ended. */
  readonly onResult?: (result: CheckResult) => void;
}

/**
 * Holds an effect to its contract: every promise is tried, and what is not kept comes with a sentence,
 * the smallest failing setting and a picture.
 *
 * It runs where it is called. An effect that never comes to an end, or eats all memory, takes its
 * caller with it; the command `tenter prove` runs the same checks in a thread that can be stopped.
 *
 * @param options A clock (`now`) and a gauge (`memory`) make time and leaks part of the proof.
 */
export function proveEffect(effect: AnyEffect, options: ProveOptions = {}): Promise<ProofReport> {
  const bench = openBench(effect, options);
  return proveBy(effect, options, (check) => runCheck(bench, check));
}

/**
 * Goes through the checks in order, each by `run`, and leaves out those that have lost their ground. Where
 * one is not reached, no later one is begun.
 */
export async function proveBy(
  { name, version }: Pick<AnyEffect, 'name' | 'version'>,
  { checks, onResult, now }: Pick<ProveOptions, 'checks' | 'onResult' | 'now'>,
  run: (check: Check) => Promise<Verdict>,
): Promise<ProofReport> {
  const results: CheckResult[] = [];
  for (const check of CHECKS) {
    if (checks && !checks.includes(check.name)) continue;
    const verdict = spared(check, results) ?? (await timed(() => run(check), now));
    const result = { check: check.name, promise: check.promise, ...verdict };
    results.push(result);
    onResult?.(result);
  }
  const namesOf = (status: Verdict['status']) =>
    results.filter((result) => result.status === status).map(({ check }) => check);
  const notReached = namesOf('not reached');
  const proven = notReached.length === 0 && namesOf('failed').length === 0;
  return { effect: name, version, proven, notReached, results };
}

async function timed(
  run: () => Promise<Verdict>,
  now: (() => number) | undefined,
): Promise<Verdict & { readonly seconds?: number }> {
  if (!now) return run();
  const started = now();
  const verdict = await run();
  return { ...verdict, seconds: Math.round(now() - started) / 1000 };
}

/** Runs one check; whatever the effect throws is its verdict. */
export async function runCheck(bench: Bench, check: Check): Promise<Verdict> {
  try {
    return await check.run(bench);
  } catch (error) {
    if (error instanceof Failed)
      return { status: 'failed', failure: (await explained(bench, error)).failure };
    if (error instanceof Refused) {
      return { status: 'not applicable', note: `it refuses the setting: ${error.message}` };
    }
    throw error;
  }
}

/** The check of that name. */
export function checkOf(name: CheckName): Check {
  return CHECKS.find((check) => check.name === name)!;
}

/** The verdict of a check that need not be begun. */
function spared({ needs }: Check, results: readonly CheckResult[]): Verdict | undefined {
  const lost = results.find(({ check, status }) => status === 'failed' && needs.includes(check));
  if (lost) {
    const note = `says nothing until "${lost.check}" passes`;
    return { status: 'not applicable', note, waitsFor: lost.check };
  }
  const stopped = results.find(({ status }) => status === 'not reached');
  return stopped?.status === 'not reached' ? { status: 'not reached', note: stopped.note } : undefined;
}
