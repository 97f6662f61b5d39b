import type { AnyLayer } from '../layer.ts';
import type { Bench } from './bench.ts';
import { describeDifference, differenceOf } from './compare.ts';
import type { RunCopy } from './copy.ts';
import { Failed } from './failed.ts';
import { showDifference, showLayer, sideBySide } from './picture.ts';
import type { Trial } from './trial.ts';
import { SMALL, variants } from './vary.ts';

const VIEW = { x: -9, y: -7, width: 56, height: 40 };
const HERE: Trial = { ...SMALL, seed: 'kept', parameters: {} };

type Change = Partial<Trial>;

/** What a memory may have forgotten to look at, in words. */
const CHANGES: Readonly<Record<string, Change>> = {
  'another seed': { seed: 'another' },
  'another size': { width: 13, height: 17 },
  'another layout': { layout: 'brick:1/2' },
  'a sketch': { quality: 'sketch' },
  'another density': { pixelsPerMm: 3 },
};

/** A setting that differs from `HERE`, and in what. */
interface Other {
  readonly words: string;
  readonly trial: Trial;
}

/**
 * Compares a setting painted by a copy that has just been loaded with the same one painted by a copy that
 * has done others before: what is filled once, or found again by too little of the setting, is then
 * another's.
 *
 * @throws Failed that names what the memory does not look at.
 */
export async function tryFilledOnce({ effect, runCopy }: Bench): Promise<void> {
  if (!runCopy) return;
  const all = othersOf(variants(effect, HERE).slice(1));
  const fresh = await paintAfter(runCopy, []);
  if (!fresh || isSame(fresh, await paintAfter(runCopy, all))) return;
  // The fewest changes stand last: the one thing that was not looked at has the fault for a name.
  for (const other of [...all].reverse()) {
    const late = await paintAfter(runCopy, [other]);
    if (!isSame(fresh, late)) throw kept(fresh, late, other.words);
  }
  throw kept(fresh, await paintAfter(runCopy, all), `${all.length} other settings`);
}

/**
 * Every set of changes, the largest first. A memory that looks at some of the setting takes the first
 * that agrees there, and that one must differ in all the rest: only with the larger sets before the
 * smaller ones is it so for every memory.
 */
function othersOf(changed: readonly Trial[]): Other[] {
  const together = Object.assign({}, ...changed.map(({ parameters }) => parameters));
  const ways = Object.entries({
    ...CHANGES,
    ...(changed.length > 0 && { 'other parameters': { parameters: together } }),
  });
  const sets = Array.from({ length: 2 ** ways.length - 1 }, (_, bits) =>
    ways.filter((_, index) => (bits + 1) & (1 << index)),
  ).sort((a, b) => b.length - a.length);
  const others = sets.map((set) => ({
    words: set.map(([words]) => words).join(' and '),
    trial: Object.assign({}, HERE, ...set.map(([, change]) => change)) as Trial,
  }));
  return [...others, ...changed.map((trial) => ({ words: changeOf(trial), trial }))];
}

function changeOf({ parameters }: Trial): string {
  const [name, value] = Object.entries(parameters)[0];
  return `${name}=${value}`;
}

/** What is painted of `HERE`, or none where the effect refuses it. @throws Failed where it fails. */
async function paintAfter(runCopy: RunCopy, before: readonly Other[]): Promise<AnyLayer | undefined> {
  const trials = [...before.map(({ trial }) => trial), HERE];
  const { layer, failure } = await runCopy({ trials, view: VIEW }, []);
  if (failure) throw new Failed(failure.setting, failure);
  return layer;
}

function isSame(fresh: AnyLayer, late: AnyLayer | undefined): boolean {
  return late !== undefined && !differenceOf(fresh, late);
}

function kept(fresh: AnyLayer, late: AnyLayer | undefined, words: string): Failed {
  const difference = late && differenceOf(fresh, late);
  return new Failed(HERE, {
    expected: 'the same texture whether the effect has just been loaded or has worked before',
    received: difference
      ? `${describeDifference(difference)} after ${words} was prepared and painted first`
      : `none after ${words} was prepared and painted first`,
    remedy:
      'Fill no variable of the module once for all, and find nothing again by less than all it was made from: prepare puts into the model whatever paint needs.',
    picture: late ? showDifference(fresh, late) : sideBySide([showLayer(fresh)]),
  });
}
