import { type Check, GROUND } from '../check.ts';
import { tryResolution } from '../far-view.ts';
import { HOME } from '../trial.ts';

export const resolution: Check = {
  name: 'resolution',
  promise: 'At a lower density it looks as the finer picture does from further away.',
  needs: GROUND,
  async run(bench) {
    const figures = await tryResolution(bench, HOME);
    return { status: 'passed', figures };
  },
};
