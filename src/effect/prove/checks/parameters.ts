import type { Bench } from '../bench.ts';
import type { Check } from '../check.ts';
import { Failed, Refused } from '../failed.ts';
import { anyTrial, searchTrials } from '../random.ts';
import type { Trial } from '../trial.ts';
import { trySound } from '../try-sound.ts';
import { overTrials, pairs, SMALL, smallestFailure, variants } from '../vary.ts';

const RANDOM_RUNS = 30;

export const parameters: Check = {
  name: 'parameters',
  promise: 'Every value of every parameter works, at the extremes and in any combination.',
  needs: ['runs', 'state', 'finite'],
  async run(bench) {
    const { effect, quick } = bench;
    const base = quick ? { ...SMALL, quality: 'sketch' as const } : SMALL;
    const look = async (trial: Trial) => trySound(bench, await bench.prepare(trial));
    const alone = await overTrials(bench, variants(effect, base), (sample) => trySound(bench, sample));
    const paired = pairs(effect, base);
    let refused = alone.refused;
    for (const trial of paired) if (!(await tryPair(bench, trial))) refused++;
    const mixed = await searchTrials(bench, anyTrial(effect.parameters, base.quality), RANDOM_RUNS, look);
    const settings = alone.tried + paired.length + mixed.tried;
    return { status: 'passed', figures: { settings, refused: refused + mixed.refused } };
  },
};

/** @returns False where the effect refuses the trial. */
async function tryPair(bench: Bench, trial: Trial): Promise<boolean> {
  const fails = async (tried: Trial): Promise<Failed | Refused | undefined> => {
    try {
      trySound(bench, await bench.prepare(tried));
      return undefined;
    } catch (error) {
      if (error instanceof Failed || error instanceof Refused) return error;
      throw error;
    }
  };
  const outcome = await fails(trial);
  if (outcome instanceof Failed) {
    const still = async (tried: Trial) => {
      const again = await fails(tried);
      return again instanceof Failed ? again : undefined;
    };
    throw await smallestFailure(trial, outcome, still);
  }
  return outcome === undefined;
}
