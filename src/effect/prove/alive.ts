import type { Parameter, ParameterValue } from '../parameter.ts';
import { spokenValue } from '../value.ts';
import { tryFinished } from './alive-finished.ts';
import { changes, Pictures } from './alive-pictures.ts';
import { surroundings, WIDE } from './alive-places.ts';
import type { Bench } from './bench.ts';
import { type Budget, openBudget } from './budget.ts';
import type { Claim } from './claim.ts';
import { claimsOf, type Depth, finerClaimsOf, tenthsOf } from './claims.ts';
import { Failed } from './failed.ts';
import { tryHue } from './hues.ts';
import { tryLighter } from './lighter.ts';
import type { Trial } from './trial.ts';
import { tryZero } from './zero.ts';

/** What a quick proof claims: quarters of so many numbers, and so many entries of each list. */
const QUICK = { numbers: 6, entries: 8 };
/** Entries of a list that a whole proof tries. */
const MOST_ENTRIES = 16;

/** What a whole proof spends on tenths of ranges, s. */
const TENTHS_SECONDS = { quick: 0, whole: 8 };

/** How many claims were tried, and how many were left to a whole proof. */
export interface Tried {
  readonly claims: number;
  readonly left: number;
}

/**
 * Tries whether every parameter does something, and each part of it. What does nothing beside the defaults is tried
 * over larger boxes and beside other values of the others: it may need another one that is switched on. A value that
 * is refused where others are taken counts as a change; what is refused everywhere is no claim.
 *
 * @param base   What the extremes were tried over; their pictures are looked at first.
 * @param budget Of the finer claims: those of whole parameters are all tried.
 * @throws Failed with the name of what changes nothing anywhere.
 */
export async function tryAlive(bench: Bench, base: Trial, budget: Budget): Promise<Tried> {
  const pictures = new Pictures(bench);
  const parameters = Object.entries<Parameter>(bench.effect.parameters);
  const claims = parameters.flatMap(([name, parameter]) => named(name, claimsOf(name, parameter)));
  for (const [name, claim] of claims) await tryClaim(bench, pictures, base, name, claim);
  await tryFinished(bench, pictures);
  for (const [name, parameter] of parameters) await tryZero(pictures, name, parameter);
  for (const [name, parameter] of parameters) await tryLighter(pictures, name, parameter, bench.quick);
  const finer = finerClaims(bench);
  let tried = 0;
  for (const [name, claim] of finer) {
    if (budget.isOver()) break;
    await tryClaim(bench, pictures, base, name, claim);
    tried++;
  }
  const finest = bench.quick ? [] : tenths(parameters);
  const short = openBudget(bench, TENTHS_SECONDS);
  let triedTenths = 0;
  for (const [name, claim] of finest) {
    if (short.isOver()) break;
    await tryClaim(bench, pictures, base, name, claim);
    triedTenths++;
  }
  return {
    claims: claims.length + tried + triedTenths,
    left: finer.length - tried + finest.length - triedTenths,
  };
}

/** By turns, so that where time is short something of each is tried: the ends of all ranges first. */
function tenths(parameters: readonly (readonly [string, Parameter])[]): NamedClaim[] {
  const lists = parameters.flatMap(([name, parameter]) =>
    parameter.kind === 'number' ? [named(name, fromTheEnds(tenthsOf(name, parameter)))] : [],
  );
  const most = Math.max(0, ...lists.map(({ length }) => length));
  return Array.from({ length: most }, (_, k) => lists.flatMap((list) => list.slice(k, k + 1))).flat();
}

function fromTheEnds<T>(items: readonly T[]): T[] {
  return items.length < 2 ? [...items] : [items.at(-1)!, items[0], ...items.slice(1, -1)];
}

type NamedClaim = readonly [name: string, claim: Claim];

function named(name: string, claims: readonly Claim[]): NamedClaim[] {
  return claims.map((claim) => [name, claim]);
}

function finerClaims(bench: Bench): NamedClaim[] {
  let numbers = 0;
  return Object.entries<Parameter>(bench.effect.parameters).flatMap(([name, parameter]) => {
    if (parameter.kind === 'number') numbers++;
    return named(name, finerClaimsOf(name, parameter, depthOf(bench, numbers)));
  });
}

/** @throws Failed */
async function tryClaim(
  bench: Bench,
  pictures: Pictures,
  base: Trial,
  name: string,
  claim: Claim,
): Promise<void> {
  const life = await lifeOf(bench, pictures, base, name, claim);
  if (life === 'dead') throw dead(name, claim);
  const { kind } = bench.effect.parameters[name];
  if (life === 'refused' && MEANT_TO_WORK.includes(kind)) throw refusedEverywhere(base, name, claim);
  if (life === 'refused' || claim.channel === undefined) return;
  await tryHue(pictures, life, name, claim.channel, claim.values);
}

/** Of pictures and texts some may be nothing that can be drawn; what else is offered works somewhere. */
const MEANT_TO_WORK: readonly Parameter['kind'][] = ['number', 'choice', 'switch'];

function refusedEverywhere(
  base: Trial,
  name: string,
  { what, values, instead = 'take it out' }: Claim,
): Failed {
  return new Failed(
    { ...base, parameters: { [name]: values[values.length - 1] } },
    {
      expected: `${what} to be taken somewhere`,
      received:
        'a refusal beside the defaults and beside every extreme of the others, in small boxes and in large ones',
      remedy: `Let it work, or ${instead}.`,
    },
  );
}

function depthOf({ quick }: Bench, numbers: number): Depth {
  if (!quick) return { entries: MOST_ENTRIES, quarters: true, innerCounts: true };
  return { entries: QUICK.entries, quarters: numbers <= QUICK.numbers, innerCounts: false };
}

/** Where a claim showed, or how it did not. */
async function lifeOf(
  bench: Bench,
  pictures: Pictures,
  base: Trial,
  name: string,
  claim: Claim,
): Promise<Trial | 'dead' | 'refused'> {
  const where = { bench, base, name, claim, showing: pictures.showing.get(name) };
  let isTaken = false;
  for (const [surrounding, count] of surroundings(where)) {
    const values = claim.values.slice(0, count);
    const seen = await changes(pictures, surrounding, name, { ...claim, values });
    isTaken ||= seen !== 'refused';
    if (seen !== 'changed') continue;
    pictures.show(name, surrounding);
    return surrounding;
  }
  return isTaken ? 'dead' : 'refused';
}

function dead(name: string, claim: Claim): Failed {
  const { what, instead = 'take it out' } = claim;
  const shown = shownOf(claim);
  const last = shown[shown.length - 1];
  const between = shown.length === 2 && typeof last !== 'number' ? ' and at ' : ', ';
  return new Failed(
    { ...WIDE, parameters: { [name]: last } },
    {
      expected: `${what} to change what is painted`,
      received: `the same picture at ${shown.map(spokenValue).join(between)}, beside the defaults and beside every extreme of the others`,
      remedy: `Let paint use it, ${instead}, or mend where "${name}" is lost.`,
    },
  );
}

/** Numbers in their order; of lists and texts, which are long, two. */
function shownOf({ values, isOfText }: Claim): readonly ParameterValue[] {
  if (typeof values[0] === 'object' || isOfText) return values.slice(0, 2);
  return typeof values[0] === 'number' ? [...values].sort((a, b) => Number(a) - Number(b)) : values;
}
