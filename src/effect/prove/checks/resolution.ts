import { type Check, GROUND } from '../check.ts';
import { tryResolution } from '../far-view.ts';
import { HOME } from '../trial.ts';
import { overTrials, variants } from '../vary.ts';

export const resolution: Check = {
  name: 'resolution',
  promise: 'At a lower density it looks as the finer picture does from further away.',
  needs: GROUND,
  async run(bench) {
    const trials = bench.quick ? [HOME] : variants(bench.effect, HOME);
    let largest = 0;
    await overTrials(bench, trials, async ({ trial }) => {
      largest = Math.max(largest, await tryResolution(bench, trial));
    });
    return { status: 'passed', figures: { 'difference as a share of contrast': Number(largest.toFixed(3)) } };
  },
};
