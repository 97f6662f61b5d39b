import { atDensity } from '../bench.ts';
import type { Check } from '../check.ts';
import { HOME } from '../trial.ts';
import { trySound } from '../try-sound.ts';
import { bareGround, overTrials } from '../vary.ts';

const TRIALS = [
  HOME,
  { ...HOME, seed: 'another' },
  { ...HOME, layout: 'straight', width: 3, height: 2 },
  { ...HOME, layout: 'brick:1/3', width: 3, height: 90 },
];
const DENSITIES = [HOME.pixelsPerMm, 24, 0.5];

export const finite: Check = {
  name: 'finite',
  promise: 'All its numbers are finite and within the range of their plane.',
  needs: ['runs'],
  async run(bench) {
    await overTrials(bench, [...TRIALS, ...bareGround(bench.effect, HOME)], (sample) => {
      for (const density of DENSITIES) trySound(bench, atDensity(sample, density));
    });
    return { status: 'passed' };
  },
};
