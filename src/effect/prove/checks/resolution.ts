import { type Check, GROUND } from '../check.ts';
import { inFarView, tryResolution } from '../far-view.ts';
import { HOME } from '../trial.ts';
import { overTrials, variants } from '../vary.ts';

export const resolution: Check = {
  name: 'resolution',
  promise: 'At a lower density it looks as the finer picture does from further away.',
  needs: GROUND,
  async run(bench) {
    const home = inFarView(HOME);
    let largest = 0;
    await overTrials(bench, bench.quick ? [home] : variants(bench.effect, home), (sample) => {
      largest = Math.max(largest, tryResolution(bench, sample));
    });
    return { status: 'passed', figures: { 'difference as a share of contrast': Number(largest.toFixed(3)) } };
  },
};
