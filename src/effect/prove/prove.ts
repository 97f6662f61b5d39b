import type { AnyEffect } from '../effect.ts';
import { type Bench, type BenchOptions, openBench } from './bench.ts';
import { type Check, GROUND } from './check.ts';
import { tryHidden } from './checks/hidden.ts';
import { CHECKS } from './checks/index.ts';
import { explained } from './explain-unsound.ts';
import { Failed, Refused } from './failed.ts';
import type { CheckName, CheckResult, ProofReport, Verdict } from './report.ts';
import { requiringFinite } from './requiring-finite.ts';
import { overTrials } from './vary.ts';

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
 *
 * @param hands How many checks may be under way at once; `run` is told by which hand. Results come in order
 *   all the same.
 */
export async function proveBy(
  { name, version }: Pick<AnyEffect, 'name' | 'version'>,
  { checks, onResult, now }: Pick<ProveOptions, 'checks' | 'onResult' | 'now'>,
  run: (check: Check, hand: number) => Promise<Verdict>,
  hands = 1,
): Promise<ProofReport> {
  const started = now?.();
  const chosen = CHECKS.filter((check) => !checks || checks.includes(check.name));
  const waiting = hands === 1 ? [...chosen] : longestFirst(chosen);
  const settled = new Map<CheckName, Settled>();
  const faults = new Map<CheckName, unknown>();
  const results: CheckResult[] = [];
  const tellInOrder = () => {
    for (let next = chosen[results.length]; next && settled.has(next.name); next = chosen[results.length]) {
      const lost = groundless(next, settled);
      if (!lost && faults.has(next.name)) throw faults.get(next.name);
      const verdict = lost ?? settled.get(next.name)!;
      const promise = (verdict.status === 'failed' && verdict.failure.breaks) || next.promise;
      const result = { check: next.name, promise, ...verdict };
      results.push(result);
      onResult?.(result);
    }
  };
  const work = async (hand: number) => {
    for (let check = waiting.shift(); check; check = waiting.shift()) {
      const todo = check;
      // What a check stumbles over means nothing where it has no ground, which may not be known yet.
      const holdBack = (error: unknown): Verdict => {
        const isGroundKnown = todo.needs.every(
          (name) => settled.has(name) || !chosen.includes(checkOf(name)),
        );
        if (isGroundKnown) throw error;
        faults.set(todo.name, error);
        return { status: 'not applicable', note: 'it came to no end' };
      };
      const verdict = spared(todo, settled) ?? (await timed(() => run(todo, hand), now).catch(holdBack));
      settled.set(todo.name, verdict);
      tellInOrder();
    }
  };
  const stopAll = (error: unknown) => {
    waiting.length = 0;
    throw error;
  };
  const ends = await Promise.allSettled(
    Array.from({ length: hands }, (_, hand) => work(hand).catch(stopAll)),
  );
  const broken = ends.find(({ status }) => status === 'rejected') as PromiseRejectedResult | undefined;
  if (broken) throw broken.reason;
  return { ...reportOf({ effect: name, version }, results), ...secondsSince(started, now) };
}

function secondsSince(started: number | undefined, now: (() => number) | undefined): { seconds?: number } {
  return now && started !== undefined ? { seconds: Math.round(now() - started) / 1000 } : {};
}

function reportOf(
  whose: Pick<ProofReport, 'effect' | 'version'>,
  results: readonly CheckResult[],
): ProofReport {
  const namesOf = (status: Verdict['status']) =>
    results.filter((result) => result.status === status).map(({ check }) => check);
  const notReached = namesOf('not reached');
  const proven = notReached.length === 0 && namesOf('failed').length === 0;
  return { ...whose, proven, notReached, results };
}

/**
 * The ground of the others and what they will cost, which may be all that is reached; then what takes longest, so that
 * no hand is left with it at the end.
 */
function longestFirst(checks: readonly Check[]): Check[] {
  const turnOf = ({ name }: Check) => (FIRST.includes(name) ? 0 : LONG.includes(name) ? 1 : 2);
  return [...checks].sort((a, b) => turnOf(a) - turnOf(b));
}

const FIRST: readonly CheckName[] = [...GROUND, 'cost'];
const LONG: readonly CheckName[] = ['parameters', 'periodic', 'resolution'];

type Settled = Verdict & { readonly seconds?: number };

async function timed(run: () => Promise<Verdict>, now: (() => number) | undefined): Promise<Settled> {
  if (!now) return run();
  const started = now();
  const verdict = await run();
  return { ...verdict, ...secondsSince(started, now) };
}

/** Runs one check; whatever the effect throws is its verdict. */
export async function runCheck(bench: Bench, check: Check): Promise<Verdict> {
  bench.drawn = new Map();
  try {
    try {
      return await check.run(benchFor(bench, check));
    } finally {
      await tryDrawn(bench, check);
    }
  } catch (error) {
    if (error instanceof Failed)
      return { status: 'failed', failure: (await explained(bench, error)).failure };
    if (error instanceof Refused) {
      return { status: 'not applicable', note: `it refuses the setting: ${error.message}` };
    }
    throw error;
  }
}

/**
 * Whatever a check that rests on "hidden" came to: what it saw the effect draw from is the fault.
 *
 * @throws Failed that names it.
 */
async function tryDrawn(bench: Bench, { needs }: Check): Promise<void> {
  const found = [...(bench.drawn?.values() ?? [])];
  bench.drawn = undefined;
  if (found.length === 0 || !needs.includes('hidden')) return;
  await overTrials(bench, found.slice(0, MOST_DRAWN), ({ trial }) => tryHidden(bench, trial));
}

/** Sources that are looked into. */
const MOST_DRAWN = 3;

/** Values are for the check of parameters to try: what it needs must not fail of them first. */
function benchFor(bench: Bench, { name, needs }: Check): Bench {
  const own = LEAVES_CRASHES.includes(name) ? { ...bench, leavesCrashes: true } : bench;
  if (!needs.includes('finite')) return own;
  return requiringFinite(own, checkOf('parameters').needs.includes(name));
}

/** Those whose values "parameters" tries too, so that a crash at one of them has its own name. */
const LEAVES_CRASHES: readonly CheckName[] = [
  'planes',
  'inside',
  'hidden',
  'twice',
  'state',
  'clone',
  'model',
  'bands',
  'periodic',
  'cost',
];

/** The check of that name. */
export function checkOf(name: CheckName): Check {
  return CHECKS.find((check) => check.name === name)!;
}

/** The verdict of a check that need not be begun. */
function spared(check: Check, settled: ReadonlyMap<CheckName, Settled>): Verdict | undefined {
  const lost = groundless(check, settled);
  if (lost) return lost;
  const stopped = [...settled.values()].find(({ status }) => status === 'not reached');
  return stopped?.status === 'not reached' ? { status: 'not reached', note: stopped.note } : undefined;
}

/** The verdict of a check that says nothing, because one that it needs has failed. */
function groundless({ needs }: Check, settled: ReadonlyMap<CheckName, Settled>): Verdict | undefined {
  const lost = needs.find((name) => settled.get(name)?.status === 'failed');
  return lost && { status: 'not applicable', note: `says nothing until "${lost}" passes`, waitsFor: lost };
}
