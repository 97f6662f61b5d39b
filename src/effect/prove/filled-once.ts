import { readsArtwork } from '../artwork.ts';
import type { AnyEffect } from '../effect.ts';
import type { AnyLayer } from '../layer.ts';
import type { Parameter } from '../parameter.ts';
import type { Bench } from './bench.ts';
import { type Budget, openBudget } from './budget.ts';
import { describeDifference, differenceOf } from './compare.ts';
import type { CopyAnswer, RunCopy } from './copy.ts';
import { BREAKS, Failed } from './failed.ts';
import { allNear, type Change, nearPlaces, nearValues } from './near-by.ts';
import { showDifference, showLayer, sideBySide } from './picture.ts';
import { type Alike, likePlaces, runTogether } from './run-together.ts';
import type { Trial } from './trial.ts';
import { SKETCHED, thinned, variants, words } from './vary.ts';

const VIEW = { x: -9, y: -7, width: 48, height: 28 };
const HERE: Trial = { ...SKETCHED, seed: 'kept' };

/** Parameters that a quick proof changes one by one. */
const QUICK_CHANGES = 6;
/** What is spent on changes so small that a memory may round them away, s. */
const NEAR_SECONDS = { quick: 0.6, whole: 5 };
/** The share of a range that no default lies at. */
const INSIDE = 0.437;

const SEED: Change = { words: 'another seed', of: 'the seed', trial: { ...HERE, seed: 'another' } };
const SIZE: Change = {
  words: 'another size',
  of: 'the size of the box',
  trial: { ...HERE, width: 13, height: 17 },
};
const LAYOUT: Change = { words: 'another layout', of: 'the layout', trial: { ...HERE, layout: 'brick:1/2' } };
const QUALITY: Change = {
  words: 'the other quality',
  of: 'the quality',
  trial: { ...HERE, quality: 'finished' },
};
const DENSITY: Change = {
  words: 'another density',
  of: 'the density of the band',
  trial: { ...HERE, pixelsPerMm: 3 },
};

/** For an effect that reads it. */
const ARTWORK: Change = {
  words: 'other artwork',
  of: 'the artwork',
  trial: { ...HERE, artwork: 'transparent' },
};

/** What each copy paints before. */
const WHOLE: readonly (readonly Change[])[] = [[SEED], [SIZE], [LAYOUT], [QUALITY], [DENSITY]];
/** What comes first is kept, and hides the others where nothing depends on it: seeds and sizes tell of most. */
const QUICK: readonly (readonly Change[])[] = [[SEED, SIZE, QUALITY], [LAYOUT], [DENSITY]];

/**
 * Compares a setting painted by a copy that has just been loaded with the same one painted by copies that
 * have done others before: what is filled once, or found again by too little of the setting, is then
 * another's. Whatever else a memory looks at agrees, as only one thing differs at a time.
 *
 * @throws Failed that names what the memory does not look at.
 */
export async function tryFilledOnce({ effect, runCopy, quick, now, work }: Bench): Promise<void> {
  if (!runCopy) return;
  const fresh = await paintAfter(runCopy, []);
  if (!fresh.layer) return;
  if (fresh.running?.length) throw leftRunning(fresh.layer, fresh.running);
  const places = [...(readsArtwork(effect) ? [[ARTWORK]] : []), ...(quick ? QUICK : WHOLE)];
  for (const before of [...places, ...parameterChanges(variants(effect, HERE).slice(1), quick)]) {
    const late = await paintAfter(runCopy, before);
    if (!isSame(fresh.layer, late.layer)) throw await named(runCopy, HERE, fresh.layer, late, before);
  }
  await tryRounded({ effect, runCopy, quick }, fresh.layer, openBudget({ now, work, quick }, NEAR_SECONDS));
}

/**
 * The same of changes so small that a memory which rounds what it looks at takes them for none: at the defaults one
 * after the other, and then beside each option and each switch, by itself.
 */
async function tryRounded(
  { effect, runCopy, quick }: Pick<Bench, 'effect' | 'quick'> & { readonly runCopy: RunCopy },
  fresh: AnyLayer,
  budget: Budget,
): Promise<void> {
  await tryTwins(runCopy, likePlaces(HERE), budget);
  const alone = nearValues(effect, HERE);
  const places = nearPlaces(HERE).map((place) => [place]);
  const orders = [allNear(effect, HERE), ...places, ...(quick ? thinned(alone, QUICK_CHANGES) : alone)];
  for (const [turn, before] of orders.entries()) {
    if (budget.isOver()) return;
    const late = await paintAfter(runCopy, before);
    if (isSame(fresh, late.layer)) continue;
    // All at once say that something is rounded; one by itself says what.
    for (const one of turn === 0 ? alone : []) {
      const byItself = await paintAfter(runCopy, one);
      if (!isSame(fresh, byItself.layer)) throw await named(runCopy, HERE, fresh, byItself, one);
    }
    throw await named(runCopy, HERE, fresh, late, before);
  }
  await tryTwins(runCopy, quick ? [] : runTogether(effect, HERE), budget);
  for (const here of quick ? [] : otherwise(effect)) {
    if (budget.isOver()) return;
    const own = (await paintAfter(runCopy, [], here)).layer;
    const before = nearValues(effect, here).flat();
    for (const order of own ? [before, before.toReversed()] : []) {
      const late = await paintAfter(runCopy, order, here);
      if (!isSame(own!, late.layer)) throw await named(runCopy, here, own!, late, order);
    }
  }
}

/** Of two settings that a key may take for one, each painted by itself and then after the other. */
async function tryTwins(runCopy: RunCopy, twins: readonly Alike[], budget: Budget): Promise<void> {
  for (const { here, before } of twins) {
    if (budget.isOver()) return;
    const own = (await paintAfter(runCopy, [], here)).layer;
    const late = await paintAfter(runCopy, [before], here);
    if (own && late.layer && !isSame(own, late.layer)) throw await named(runCopy, here, own, late, [before]);
  }
}

/** As finished, with each option and each switch by itself, and with every number inside its range at once. */
function otherwise(effect: AnyEffect): Trial[] {
  const inside = Object.entries<Parameter>(effect.parameters).flatMap(([name, parameter]) => {
    if (parameter.kind !== 'number') return [];
    const value = parameter.min + INSIDE * (parameter.max - parameter.min);
    return [[name, parameter.whole ? Math.round(value) : Number(value.toPrecision(6))] as const];
  });
  return [
    { ...HERE, quality: 'finished' },
    ...(inside.length > 0 ? [{ ...HERE, parameters: Object.fromEntries(inside) }] : []),
    ...words(effect, HERE),
  ];
}

/**
 * First everything changes at once, which a memory of nothing takes, and then one parameter after the other: a
 * memory that looks at all but one takes that one. In the other order too, so that of two that it does not look
 * at, each is the first one once.
 */
function parameterChanges(changed: readonly Trial[], quick = false): (readonly Change[])[] {
  const parameters = Object.assign({}, ...changed.map((trial) => trial.parameters));
  const { seed } = SEED.trial;
  const { width, height } = SIZE.trial;
  const all = {
    words: 'other settings',
    of: 'all of the setting',
    trial: { ...HERE, seed, width, height, parameters },
  };
  const tried = quick ? thinned(lastOfEach(changed), QUICK_CHANGES) : changed;
  const alone = tried.map((trial) => ({
    words: changeOf(trial),
    of: Object.keys(trial.parameters)[0],
    trial,
  }));
  if (quick || alone.length < 2) return [[all, ...alone]];
  return [
    [all, ...alone],
    [{ words: 'other parameters', of: 'all parameters', trial: { ...HERE, parameters } }, ...alone.reverse()],
  ];
}

/** One after the other they only say that one of them is kept, not which: the last are the smallest changes. */
async function named(
  runCopy: RunCopy,
  here: Trial,
  fresh: AnyLayer,
  late: CopyAnswer,
  before: readonly Change[],
): Promise<Failed> {
  const dice = late.drawn.find(({ sort }) => sort === 'chance' || sort === 'clock');
  if (dice) return thrownDice(here, fresh, late.layer, dice.name);
  for (const change of before.length > 1 ? [...before].reverse() : []) {
    const alone = await paintAfter(runCopy, [change], here);
    if (!isSame(fresh, alone.layer)) return kept(here, fresh, alone.layer, change);
  }
  const all = { words: before.map(({ words }) => words).join(', '), of: 'all of the setting' };
  return kept(here, fresh, late.layer, before.length > 1 ? all : before[0]);
}

/** One change of every parameter. */
function lastOfEach(changed: readonly Trial[]): Trial[] {
  return [...new Map(changed.map((trial) => [Object.keys(trial.parameters)[0], trial])).values()];
}

function changeOf({ parameters }: Trial): string {
  const [name, value] = Object.entries(parameters)[0];
  return `${name}=${value}`;
}

/** @throws Failed where the effect fails; no layer where it refuses the setting. */
async function paintAfter(runCopy: RunCopy, before: readonly Change[], here = HERE): Promise<CopyAnswer> {
  const trials = [...before.map(({ trial }) => trial), here];
  const answer = await runCopy({ trials, view: VIEW }, []);
  if (answer.failure) throw new Failed(answer.failure.setting, answer.failure);
  return answer;
}

function isSame(fresh: AnyLayer, late: AnyLayer | undefined): boolean {
  return late !== undefined && !differenceOf(fresh, late);
}

function kept(
  here: Trial,
  fresh: AnyLayer,
  late: AnyLayer | undefined,
  { words, of }: Pick<Change, 'words' | 'of'>,
): Failed {
  const difference = late && differenceOf(fresh, late);
  return new Failed(here, {
    expected: 'the same texture whether the effect has just been loaded or has worked before',
    received: difference
      ? `${describeDifference(difference)} after ${words} was prepared and painted first`
      : `none after ${words} was prepared and painted first`,
    remedy: `Something is kept from one render to the next, and found again without a look at ${of}. Fill no variable of the module once for all, and find nothing again by less than all it was made from: prepare puts into the model whatever paint needs.`,
    picture: late ? showDifference(fresh, late) : sideBySide([showLayer(fresh)]),
  });
}

function thrownDice(here: Trial, fresh: AnyLayer, late: AnyLayer | undefined, name: string): Failed {
  return new Failed(here, {
    expected: 'every number to come from the setting',
    received: `a call of ${name}`,
    remedy:
      'Draw from random("a name") of the setting, and leave the clock out: the same seed then gives the same texture.',
    picture: late ? showDifference(fresh, late) : sideBySide([showLayer(fresh)]),
    breaks: BREAKS.dice,
  });
}

function leftRunning(layer: AnyLayer, running: readonly string[]): Failed {
  return new Failed(HERE, {
    expected: 'nothing to be left to do when prepare and paint are over',
    received: `a timer of ${running.join(' and of ')} that is still running`,
    remedy:
      'Await in prepare whatever the texture needs, and clear every timer: what happens later happens in the middle of other renders, or never.',
    picture: sideBySide([showLayer(layer)]),
  });
}
