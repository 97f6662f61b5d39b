import { tryAlive } from '../alive.ts';
import type { Check } from '../check.ts';
import { anyTrial, searchTrials } from '../random.ts';
import { trySound } from '../try-sound.ts';
import { overTrials, pairs, SMALL, thinned, variants } from '../vary.ts';

const RANDOM_RUNS = 30;
/** Settings with all parameters at their extremes, where it has to be quick: every other one of most effects'. */
const QUICK_PAIRS = 16;

export const parameters: Check = {
  name: 'parameters',
  promise: 'Every value of every parameter works, in any combination, and changes what is painted.',
  needs: ['runs', 'setting', 'hidden', 'state', 'finite'],
  async run(bench) {
    const { effect, quick } = bench;
    const base = quick ? { ...SMALL, quality: 'sketch' as const } : SMALL;
    const together = thinned(pairs(effect, base), quick ? QUICK_PAIRS : Number.POSITIVE_INFINITY);
    const extremes = [...variants(effect, base), ...together];
    const fixed = await overTrials(bench, extremes, (sample) => trySound(bench, sample));
    const random = await searchTrials(
      bench,
      anyTrial(effect.parameters, base.quality),
      RANDOM_RUNS,
      async (trial) => trySound(bench, await bench.shared(trial)),
    );
    const claims = await tryAlive(bench, base);
    const figures = { settings: fixed.tried + random.tried, refused: fixed.refused + random.refused, claims };
    return { status: 'passed', figures };
  },
};
