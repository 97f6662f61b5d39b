import { spokenValue } from '../../value.ts';
import { atDensity, type Bench, type Sample } from '../bench.ts';
import type { Check } from '../check.ts';
import { dataDifference, describeDifference, differenceOf } from '../compare.ts';
import { Failed, Refused } from '../failed.ts';
import { tryFilledOnce } from '../filled-once.ts';
import { showDifference } from '../picture.ts';
import { HOME, type Trial } from '../trial.ts';
import { isLeft, otherArtworks, SKETCHED, variants } from '../vary.ts';

const VIEW = { x: -20, y: -12, width: 64, height: 40 };
const ELSEWHERE: Trial = { ...SKETCHED, width: 17, height: 13, layout: 'straight' };
/** px/mm, and another place and size: none of them that of VIEW. */
const OTHER_DENSITIES = [3, 24, 1.2];
const OTHER_VIEW = { x: 150, y: 90, width: 90, height: 24 };
const REMEDY =
  'Keep nothing in variables of the module: prepare puts into the model whatever paint needs, and workers share no variables.';

export const state: Check = {
  name: 'state',
  promise: 'What it did before for another setting changes nothing.',
  needs: ['runs', 'hidden', 'twice'],
  async run(bench) {
    await tryFilledOnce(bench);
    await tryPaintedBefore(bench);
    const trial = bench.quick ? SKETCHED : HOME;
    const [home, unpainted] = [await bench.prepare(trial), await bench.prepare(trial)];
    const first = bench.paint(home, VIEW);
    for (const other of others(bench, trial)) {
      // A memory of one place only is emptied by another size, and then filled by the other setting.
      await bench.prepare(ELSEWHERE).catch(passRefusal);
      const between = await bench.prepare(other).catch((error) => {
        if (!isLeft(bench, other, error)) passRefusal(error);
      });
      if (!between) continue;
      compare(bench, home, first, other, 'was prepared');
      paintUnlessCrashed(bench, between);
      compare(bench, home, first, other, 'was painted');
      const again = await bench.prepare(trial);
      const path = dataDifference(unpainted.model, again.model);
      if (path)
        throw changed(
          bench,
          home,
          again,
          first,
          `a model that differs at ${path} after ${inWords(other, trial)} was prepared`,
        );
      bench.paint(atDensity(home, 3), VIEW);
      compare(bench, home, first, other, 'was painted and this one at another density');
    }
    return { status: 'passed' };
  },
};

/**
 * What paint works out from a model when it is first asked may be of that band, that density or that place.
 *
 * @throws Failed where a band is another after other bands of the same model.
 */
async function tryPaintedBefore(bench: Bench): Promise<void> {
  const [first, later] = [await bench.prepare(HOME), await bench.prepare(HOME)];
  for (const density of OTHER_DENSITIES) bench.paint(atDensity(later, density), OTHER_VIEW);
  bench.paint(later, { ...OTHER_VIEW, width: 7, height: 3 });
  const [alone, after] = [bench.paint(first, VIEW), bench.paint(later, VIEW)];
  const difference = differenceOf(alone, after);
  if (!difference) return;
  throw new Failed(HOME, {
    expected: 'the same floats whatever other bands, and at what density, were painted before',
    received: describeDifference(difference),
    remedy:
      'Something that paint works out is kept for the model, and found again without a look at the band: its density, its size or its place. Let prepare put into the model what serves every band, and let paint keep nothing.',
    picture: showDifference(alone, after),
  });
}

function paintUnlessCrashed(bench: Bench, sample: Sample): void {
  try {
    bench.paint(sample, VIEW);
  } catch (error) {
    if (!isLeft(bench, sample.trial, error)) throw error;
  }
}

function passRefusal(error: unknown): undefined {
  if (!(error instanceof Refused)) throw error;
}

/** One of each kind of change, so that a memory that looks only at some of the setting is caught. */
function others({ effect, quick }: Bench, home: Trial): Trial[] {
  const oneEach = variants(effect, home).slice(1);
  const step = Math.max(1, Math.floor(oneEach.length / (quick ? 1 : 4)));
  const places = quick
    ? [{ ...home, width: 19, height: 14, layout: 'brick:1/2' }]
    : [
        { ...home, width: 19, height: 14 },
        { ...home, layout: 'brick:1/2' },
      ];
  return [
    { ...home, seed: 'another' },
    ...otherArtworks(effect, home).slice(0, 1),
    ...places,
    ...oneEach.filter((_, index) => index % step === 0),
  ];
}

function compare(
  bench: Bench,
  home: Sample,
  first: ReturnType<Bench['paint']>,
  other: Trial,
  done: string,
): void {
  const now = bench.paint(home, VIEW);
  const difference = differenceOf(first, now);
  if (!difference) return;
  throw new Failed(home.trial, {
    expected: 'the same floats whatever else was rendered meanwhile',
    received: `${describeDifference(difference)} after ${inWords(other, home.trial)} ${done}`,
    remedy: REMEDY,
    picture: showDifference(first, now),
  });
}

function changed(
  bench: Bench,
  home: Sample,
  again: Sample,
  first: ReturnType<Bench['paint']>,
  received: string,
): Failed {
  return new Failed(home.trial, {
    expected: 'the same model whatever else was rendered meanwhile',
    received,
    remedy: REMEDY,
    picture: showDifference(first, bench.paint(again, VIEW)),
  });
}

function inWords(trial: Trial, home: Trial): string {
  if (trial.seed !== home.seed) return 'another seed';
  if (trial.artwork !== home.artwork) return 'other artwork';
  if (trial.layout !== home.layout) return 'another layout';
  if (trial.width !== home.width) return 'another size';
  const [name, value] = Object.entries(trial.parameters)[0];
  return `${name}=${spokenValue(value)}`;
}
