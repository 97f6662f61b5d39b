import type { AnyLayer } from '../layer.ts';
import type { Bench } from './bench.ts';
import { describeDifference, differenceOf } from './compare.ts';
import type { CopyAnswer, RunCopy } from './copy.ts';
import { Failed } from './failed.ts';
import { showDifference, showLayer, sideBySide } from './picture.ts';
import type { Trial } from './trial.ts';
import { SKETCHED, thinned, variants } from './vary.ts';

const VIEW = { x: -9, y: -7, width: 48, height: 28 };
const HERE: Trial = { ...SKETCHED, seed: 'kept' };

/** Parameters that a quick proof changes one by one. */
const QUICK_CHANGES = 6;

/** What a memory may have forgotten to look at, in words. */
const CHANGES: Readonly<Record<string, Partial<Trial>>> = {
  'another seed': { seed: 'another' },
  'another size': { width: 13, height: 17 },
  'another layout': { layout: 'brick:1/2' },
  'the other quality': { quality: 'finished' },
  'another density': { pixelsPerMm: 3 },
};

/** What is painted first by a copy, in words. */
interface Before {
  readonly words: string;
  readonly trials: readonly Trial[];
}

/**
 * Compares a setting painted by a copy that has just been loaded with the same one painted by copies that
 * have each done one other before: what is filled once, or found again by too little of the setting, is then
 * another's. Whatever else a memory looks at agrees, as only one thing differs.
 *
 * @throws Failed that names what the memory does not look at.
 */
export async function tryFilledOnce({ effect, runCopy, quick }: Bench): Promise<void> {
  if (!runCopy) return;
  const fresh = await paintAfter(runCopy, []);
  if (!fresh.layer) return;
  if (fresh.running?.length) throw leftRunning(fresh.layer, fresh.running);
  for (const { words, trials } of befores(variants(effect, HERE).slice(1), quick)) {
    const late = await paintAfter(runCopy, trials);
    if (isSame(fresh.layer, late.layer)) continue;
    // One after the other they only say that one of them is kept, not which.
    for (const trial of trials.slice(1)) {
      const alone = await paintAfter(runCopy, [trial]);
      if (!isSame(fresh.layer, alone.layer)) throw kept(fresh.layer, alone.layer, changeOf(trial));
    }
    throw kept(fresh.layer, late.layer, words);
  }
}

/**
 * The parameters first change all together, which a memory of nothing takes, and then one by one: a memory
 * that looks at all but one takes that one. In the other order too, so that of two that it does not look at,
 * each is the first one once.
 */
function befores(changed: readonly Trial[], quick = false): Before[] {
  const single = Object.entries(CHANGES).map(([words, change]) => ({
    words,
    trials: [{ ...HERE, ...change }],
  }));
  if (changed.length === 0) return single;
  const tried = quick ? thinned(lastOfEach(changed), QUICK_CHANGES) : changed;
  const together = { ...HERE, parameters: Object.assign({}, ...changed.map(({ parameters }) => parameters)) };
  const orders = quick ? [tried] : [tried, [...tried].reverse()];
  return [
    ...single,
    ...orders.map((trials) => ({ words: 'other parameters', trials: [together, ...trials] })),
  ];
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
async function paintAfter(runCopy: RunCopy, before: readonly Trial[]): Promise<CopyAnswer> {
  const answer = await runCopy({ trials: [...before, HERE], view: VIEW }, []);
  if (answer.failure) throw new Failed(answer.failure.setting, answer.failure);
  return answer;
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

function leftRunning(layer: AnyLayer, running: readonly string[]): Failed {
  return new Failed(HERE, {
    expected: 'nothing to be left to do when prepare and paint are over',
    received: `a timer of ${running.join(' and of ')} that is still running`,
    remedy:
      'Await in prepare whatever the texture needs, and clear every timer: what happens later happens in the middle of other renders, or never.',
    picture: sideBySide([showLayer(layer)]),
  });
}
