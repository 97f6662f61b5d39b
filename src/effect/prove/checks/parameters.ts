import { tryAlive } from '../alive.ts';
import { tryAsked } from '../asked.ts';
import { openBudget } from '../budget.ts';
import { type Check, GROUND } from '../check.ts';
import { covering, insides, insidesAlone, pairsIn, pureColours } from '../combined.ts';
import { tryLinearColours } from '../linear-colour.ts';
import { tryOwnLight } from '../own-light.ts';
import { anyTrial, searchTrials } from '../random.ts';
import { tryAll } from '../try-all.ts';
import { tryTurning } from '../turning.ts';
import { tryUnsaidLight } from '../unsaid-light.ts';
import { mirroredPairs, overTrials, pairs, SKETCHED, SMALL, spread, thinned, variants } from '../vary.ts';

/** Settings that chance chooses, extremes and middles often; of a failing one the smallest is looked for. */
const RANDOM_RUNS = 60;
const RANDOM_SECONDS = { quick: 1, whole: 25 };
/** Settings with all parameters at their extremes, where it has to be quick: every other one of most effects'. */
const QUICK_PAIRS = 16;

/** Pairs of pure colours that a quick proof tries. */
const QUICK_PURE = 6;
/** Rows of extremes changed about that a quick proof tries. */
const QUICK_MIRRORED = 4;
/** What a quick proof takes for settings together, and for what parts of parameters change. */
const SECONDS = { settings: 2, claims: 2 };

export const parameters: Check = {
  name: 'parameters',
  promise: 'Every value of every parameter works, in any combination, and changes what is painted.',
  needs: [...GROUND, 'setting', 'bands', 'periodic'],
  async run(bench) {
    const { effect, quick } = bench;
    const base = quick ? SKETCHED : SMALL;
    const alone = variants(effect, base);
    const together = [
      ...thinned(pairs(effect, base), quick ? QUICK_PAIRS : Number.POSITIVE_INFINITY),
      // Those at which other checks leave crashes to this one.
      ...spread(bench).slice(1),
      ...(quick ? thinned(mirroredPairs(effect, base), QUICK_MIRRORED) : mirroredPairs(effect, base)),
      ...insides(effect, base),
      ...thinned(pureColours(effect, base), quick ? QUICK_PURE : Number.POSITIVE_INFINITY),
      ...(quick ? [] : [...insidesAlone(effect, base), ...covering(effect, base)]),
    ];
    const budget = openBudget(bench, { quick: SECONDS.settings });
    const met = new Set<string>();
    const fixed = await overTrials(
      bench,
      [...alone, ...together],
      (sample) => {
        tryAll(bench, sample);
        for (const pair of pairsIn(sample.trial.parameters)) met.add(pair);
      },
      (tried) => tried >= alone.length && budget.isOver(),
    );
    const random = await searchTrials(
      bench,
      {
        trials: anyTrial(effect.parameters, base.quality),
        runs: RANDOM_RUNS,
        budget: openBudget(bench, RANDOM_SECONDS),
      },
      async (trial) => tryAll(bench, await bench.shared(trial)),
    );
    const { claims, left } = await tryAlive(bench, base, openBudget(bench, { quick: SECONDS.claims }));
    const lit = await tryOwnLight(bench);
    await tryUnsaidLight(bench);
    await tryLinearColours(bench);
    const turned = await tryTurning(bench);
    await tryAsked(bench);
    const figures = {
      settings: fixed.tried + random.tried,
      refused: fixed.refused + random.refused,
      'pairs of values': met.size,
      'chosen by chance': random.tried,
      claims,
      ...(turned > 0 ? { turned } : {}),
      ...(lit > 0 ? { 'lit from all sides': lit } : {}),
      ...(quick ? { 'left to a whole proof': left + fixed.left } : {}),
    };
    return { status: 'passed', figures };
  },
};
