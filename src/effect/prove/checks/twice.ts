import type { Bench, Sample } from '../bench.ts';
import { openBudget } from '../budget.ts';
import type { Check } from '../check.ts';
import { dataDifference, describeDifference, differenceOf } from '../compare.ts';
import { unshared } from '../copy-of-model.ts';
import { Failed } from '../failed.ts';
import { showDifference, showLayer, sideBySide } from '../picture.ts';
import { HOME, type Trial } from '../trial.ts';
import { unlessRefused } from '../unless-refused.ts';
import { overTrials, pairs, SKETCHED, spread, variants } from '../vary.ts';

const VIEW = { x: -20, y: -12, width: 96, height: 72 };

export const twice: Check = {
  name: 'twice',
  promise: 'The same setting gives the same model, and the same model the same band, every time.',
  needs: ['runs', 'hidden'],
  async run(bench) {
    await overTrials(bench, spread(bench), (sample) => tryTwice(bench, sample));
    const budget = openBudget(bench, SECONDS);
    const others = [...variants(bench.effect, SKETCHED).slice(1), ...pairs(bench.effect, SKETCHED)];
    await overTrials(
      bench,
      [HOME, ...others],
      (sample) => tryTwice(bench, sample),
      () => budget.isOver(),
    );
    for (const trial of SETTLED) await trySettled(bench, trial);
    return { status: 'passed' };
  },
};

/** What is spent on all other values. */
const SECONDS = { quick: 0.3, whole: 8 };
/** Long ones: work that nobody waits for is begun where there is much of it. */
const SETTLED: readonly Trial[] = [
  HOME,
  { ...HOME, layout: 'straight', width: 24, height: 330, quality: 'sketch' },
  { ...HOME, layout: 'straight', width: 330, height: 24, quality: 'sketch' },
];
/** Turns that others have meanwhile. */
const TURNS = 4;
/** Taken before anybody watches who leaves a timer behind. */
const later = globalThis.setTimeout;

/** @throws Failed where the model is another once others have had their turn. */
async function trySettled(bench: Bench, trial: Trial): Promise<void> {
  const sample = await unlessRefused(() => bench.prepare(trial));
  if (!sample) return;
  const before = bench.paint(sample, VIEW);
  const copy = copyIfPlain(sample.model);
  for (let turn = 0; turn < TURNS; turn++) await new Promise((resolve) => later(resolve, turn));
  const path = copy === undefined ? undefined : dataDifference(copy, sample.model);
  if (!path) return;
  throw new Failed(trial, {
    expected: 'the model that prepare hands over to be finished',
    received: `one that changes at ${path} when others have had their turn`,
    remedy:
      'Await in prepare all that works on the model: every async function that it calls, and every promise.',
    picture: showDifference(before, bench.paint(sample, VIEW)),
  });
}

/** Nothing of a model that cannot be copied: another check tells of that. */
function copyIfPlain(model: unknown): unknown {
  try {
    return unshared(structuredClone(model));
  } catch {
    return undefined;
  }
}

async function tryTwice(bench: Bench, shared: Sample): Promise<void> {
  // What is handed out twice may have been changed in between.
  const handed = await bench.prepare(shared.trial);
  const before = copyIfPlain(handed.model);
  const second = await bench.prepare(shared.trial);
  const isOne = before !== undefined && handed.model === second.model;
  const changed = isOne ? dataDifference(before, second.model) : undefined;
  if (changed) throw changedAgain(bench, handed, changed);
  // One that has been painted from may have been written into: that is for another check to say.
  const differs = dataDifference(shared.model, second.model) !== undefined;
  const sample = differs ? await bench.prepare(shared.trial) : shared;
  const path = dataDifference(sample.model, second.model);
  if (path) {
    throw new Failed(sample.trial, {
      expected: 'the same model when prepare runs a second time',
      received: `a model that differs at ${path}`,
      remedy: 'Let prepare depend on nothing but its setting: no counter, no variable of the module.',
      picture: showDifference(bench.paint(sample, VIEW), bench.paint(second, VIEW)),
    });
  }
  const [first, again] = [bench.paint(sample, VIEW), bench.paint(sample, VIEW)];
  const repainted = differenceOf(first, again);
  if (!repainted) return;
  throw new Failed(sample.trial, {
    expected: 'the same floats when a band is painted a second time',
    received: describeDifference(repainted),
    remedy: 'Let paint depend on nothing but its arguments: no counter, no variable of the module.',
    picture: showDifference(first, again),
  });
}

function changedAgain(bench: Bench, sample: Sample, path: string): Failed {
  return new Failed(sample.trial, {
    expected: 'the same model when prepare runs a second time',
    received: `the very model of the first time, changed at ${path}`,
    remedy:
      'What is kept from one call to the next is changed by each. Keep nothing, or make a copy before you change it.',
    picture: sideBySide([showLayer(bench.paint(sample, VIEW))]),
  });
}
