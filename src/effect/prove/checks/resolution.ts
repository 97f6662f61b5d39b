import { type Check, GROUND } from '../check.ts';
import { type FarView, inFarView, mostOf, tryResolution } from '../far-view.ts';
import { HOME } from '../trial.ts';
import { otherArtworks, overTrials, variants } from '../vary.ts';

export const resolution: Check = {
  name: 'resolution',
  promise: 'At a lower density it looks as the finer picture does from further away.',
  needs: GROUND,
  async run(bench) {
    const home = inFarView(HOME);
    const views: FarView[] = [];
    await overTrials(
      bench,
      bench.quick ? [home] : [...variants(bench.effect, home), ...otherArtworks(bench.effect, home)],
      (sample) => {
        views.push(tryResolution(bench, sample));
      },
    );
    const { difference, drift } = mostOf(views);
    const figures = {
      'difference as a share of contrast': Number(difference.toFixed(3)),
      'drift of tone as a share': Number(drift.toFixed(3)),
    };
    return { status: 'passed', figures };
  },
};
