import { type AnyLayer, neutralLayer, PLANE_CHANNELS } from '../../layer.ts';
import { bandRemedy } from '../band-cause.ts';
import { atDensity, type Bench, type Sample } from '../bench.ts';
import { type Check, GROUND } from '../check.ts';
import { describeDifference, differenceOf } from '../compare.ts';
import { Failed } from '../failed.ts';
import { showDifference } from '../picture.ts';
import { crowded } from '../sizes.ts';
import { HOME, type Trial } from '../trial.ts';
import { overTrials, SMALL, spread, thinned } from '../vary.ts';
import { tryFullBand, tryOddBands } from '../wide-bands.ts';

const WHOLE = { x: -29, y: -17, width: 64, height: 48 };
const DENSITIES = [HOME.pixelsPerMm, 3, 0.5, 24, 47.2];
/** Layouts of another kind, as sketches: a way of their own may lead there. */
const OTHERS: readonly Trial[] = ['straight', 'brick:1/3'].map((layout) => ({
  ...HOME,
  layout,
  quality: 'sketch',
}));

const MOST_PRESETS = 4;

type Cut = readonly [x: number, y: number, width: number, height: number];

/** The whole cut in several ways; in each way the parts cover it once. */
type Cuts = Readonly<Record<string, readonly Cut[]>>;

const COARSE: Cuts = {
  'uneven blocks': [0, 7, 24, 41].flatMap((x, i, xs) =>
    [0, 5, 31].map((y, j, ys): Cut => [x, y, (xs[i + 1] ?? 64) - x, (ys[j + 1] ?? 48) - y]),
  ),
  'halves, the lower first': [
    [0, 23, 64, 25],
    [0, 0, 64, 23],
  ],
  'narrow columns': [0, 1, 2, 3, 5, 8, 13, 21, 34, 55].map(
    (x, i, xs): Cut => [x, 0, (xs[i + 1] ?? 64) - x, 48],
  ),
};
const FINE: Cuts = {
  ...COARSE,
  'single rows, from the last to the first': range(48).map((y): Cut => [0, 47 - y, 64, 1]),
  'single columns': range(64).map((x): Cut => [x, 0, 1, 48]),
};

export const bands: Check = {
  name: 'bands',
  promise:
    'It paints the same however the plane is cut into bands, in any order and by any number of workers.',
  needs: GROUND,
  async run(bench) {
    await overTrials(bench, [...spread(bench), ...OTHERS, ...madeTrials(bench)], (sample) => {
      const isHome = sample.trial === HOME;
      const densities = isHome ? DENSITIES : [sample.trial.pixelsPerMm];
      const cuts = isHome || !bench.quick ? FINE : COARSE;
      for (const [k, density] of densities.entries())
        tryAllCuts(bench, atDensity(sample, density), k > 0 && bench.quick ? COARSE : cuts);
      if (isHome) tryOddBands(bench, sample);
    });
    await overTrials(bench, fullTrials(bench), (sample) => tryFullBand(bench, sample));
    return { status: 'passed' };
  },
};

/** At the defaults, and with as much in the box as can be. */
function fullTrials({ effect }: Bench): Trial[] {
  const base: Trial = { ...HOME, width: 60, height: 48, quality: 'sketch' };
  return [base, { ...base, parameters: crowded(effect) }];
}

function madeTrials({ presets = [] }: Bench): Trial[] {
  return thinned(presets, MOST_PRESETS).map(({ parameters }) => ({ ...SMALL, parameters }));
}

function tryAllCuts(bench: Bench, sample: Sample, ways: Cuts): void {
  const whole = bench.paint(sample, WHOLE);
  for (const [words, cuts] of Object.entries(ways)) tryCuts(bench, sample, whole, words, cuts);
}

function tryCuts(bench: Bench, sample: Sample, whole: AnyLayer, words: string, cuts: readonly Cut[]): void {
  const joined = neutralLayer(sample.planes, WHOLE.width, WHOLE.height);
  for (const [x, y, width, height] of cuts) {
    const part = bench.paint(sample, { x: WHOLE.x + x, y: WHOLE.y + y, width, height });
    insert(joined, part, x, y);
  }
  const difference = differenceOf(whole, joined);
  if (!difference) return;
  throw new Failed(sample.trial, {
    expected: `the same floats from one band of ${WHOLE.width} x ${WHOLE.height} px and from ${words}`,
    received: describeDifference(difference),
    remedy: bandRemedy(bench, sample, WHOLE),
    picture: showDifference(whole, joined),
  });
}

function insert(into: AnyLayer, part: AnyLayer, x: number, y: number): void {
  for (const [name, channels] of Object.entries(PLANE_CHANNELS) as [keyof typeof PLANE_CHANNELS, number][]) {
    const [target, source] = [into[name], part[name]];
    if (!target || !source) continue;
    for (let row = 0; row < part.height; row++) {
      const from = row * part.width * channels;
      target.set(
        source.subarray(from, from + part.width * channels),
        ((y + row) * into.width + x) * channels,
      );
    }
  }
}

function range(count: number): number[] {
  return Array.from({ length: count }, (_, index) => index);
}
