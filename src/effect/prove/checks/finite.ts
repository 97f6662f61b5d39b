import { atDensity, type Bench } from '../bench.ts';
import type { Check } from '../check.ts';
import { BREAKS } from '../failed.ts';
import { tryRare } from '../rare.ts';
import { sizesOf, withLargest, withLargestAlone } from '../sizes.ts';
import { HOME, type Trial } from '../trial.ts';
import { trySound } from '../try-sound.ts';
import { bareGround, extremeGround, overTrials } from '../vary.ts';

const TINY: Trial = { ...HOME, layout: 'straight', width: 3, height: 2 };
const TRIALS: readonly Trial[] = [
  HOME,
  { ...HOME, seed: 'another' },
  TINY,
  { ...HOME, layout: 'brick:1/3', width: 3, height: 90 },
];
const DENSITIES = [24, 0.5];
/** 1,000, 1,200 and 2,400 dpi: what counts pixels or samples to the mm may come to none. */
const CLOSE_UP = [39.4, 47.2, 94.5];

export const finite: Check = {
  name: 'finite',
  promise: BREAKS.unsound,
  needs: ['runs'],
  async run(bench) {
    await overTrials(
      bench,
      [
        ...TRIALS,
        ...outgrown(bench),
        ...bareGround(bench.effect, HOME),
        ...extremeGround(bench.effect, HOME),
      ],
      (sample) => {
        trySound(bench, sample);
        for (const density of densitiesOf(sample.trial)) trySound(bench, atDensity(sample, density));
      },
    );
    await tryRare(bench);
    return { status: 'passed' };
  },
};

/** Much that is large in a tiny tile lies over itself many times: there one density has to do. */
function densitiesOf(trial: Trial): readonly number[] {
  if (trial === HOME) return [...DENSITIES, ...CLOSE_UP];
  return trial.quality === 'sketch' ? [] : DENSITIES;
}

/** What is larger than the box at its largest, all at once and, where it need not be quick, each by itself. */
function outgrown({ effect, quick }: Bench): Trial[] {
  if (sizesOf(effect).length === 0) return [];
  const base: Trial = { ...TINY, width: 7, height: 5, quality: 'sketch' };
  return [withLargest(effect, base), ...(quick ? [] : withLargestAlone(effect, base))];
}
