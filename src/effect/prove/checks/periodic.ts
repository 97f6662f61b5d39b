import type { AnyLayer } from '../../layer.ts';
import { atDensity, type Bench, type Sample } from '../bench.ts';
import { tryBlank } from '../blank.ts';
import { openBudget } from '../budget.ts';
import { type Check, GROUND } from '../check.ts';
import { type Difference, describeDifference, differenceOf } from '../compare.ts';
import { Failed } from '../failed.ts';
import { tryLarge } from '../large.ts';
import { tryNarrow } from '../narrow.ts';
import { fillRectangle, showDifference, showLayer, sideBySide } from '../picture.ts';
import { anyTrial, LAYOUTS, SHEARS, searchTrials } from '../random.ts';
import type { ProofPicture } from '../report.ts';
import { HOME, type Trial } from '../trial.ts';
import { bareGround, overTrials, SKETCHED, SMALL, thinned, words } from '../vary.ts';
import { tryWalls } from '../walls.ts';

/** mm: odd in both directions, high and narrow, and tiny. */
const SIZES = [
  [41.3, 29.7],
  [7.1, 53],
  [3, 2],
] as const;
const DENSITIES = [HOME.pixelsPerMm, 11.8, 1.3];
/** px/mm at which boxes of half a mm, or of a whole one, have square pixels. */
const SQUARE = [8, 4, 10, 1];
/** Lattice vectors to go along. */
const TRANSLATES = [
  [1, 0],
  [0, 1],
  [-2, 3],
  [5, -4],
] as const;
/** What two neighbours tell of every other: a lattice is made of them. */
const NEAREST = [
  [1, 0],
  [0, 1],
] as const;
/** Fractions of a repeat at which to look besides its corner: what is wrapped too early is wrong further in. */
const FARTHEST = [
  [0.62, 0.47],
  [0.97, 0.96],
] as const;
/** Across the corner where four repeats meet. */
const CORNER = { x: -27, y: -23, width: 58, height: 46 };
/** Below this it is rounding, which a steep edge makes larger, and a wall of 3 m. */
const ROUNDING = 1e-3;
/** Up to this share of a band's numbers is a thin line. */
const THIN = 0.05;
const TOO_ROUGH =
  'It closes, but for rounding: keep places in 64 bits, or bring them home into the box before working with them; homeParts of "tenter" cuts a band so.';
const ROUNDED =
  'Only a thin line differs, so it may be rounding: bring places home into the box before working with them; homeParts of "tenter" cuts a band so.';
const SHOWN =
  'A band and the same one a repeat further on, which should be equal; beside them in red where they differ; last, the plane with the edges of its repeats in red.';
const RANDOM_RUNS = 36;
const RANDOM_SECONDS = { quick: 1, whole: 15 };
/** Kinds of layout that each option and switch is tried in by itself, and how many of these a quick proof tries. */
const KINDS = ['straight', 'brick:1/2', 'drop:1/3'];
const QUICK_WORDS = 12;
/**
 * Below this only the last bits differ: less than half a step of a 16-bit picture. Places further out
 * round otherwise, and the host never asks for them: of each pixel it paints one copy alone.
 */
const LAST_BITS = 1 / 65_535 / 2;

export const periodic: Check = {
  name: 'periodic',
  promise: 'It repeats over every layout, at odd sizes, on tiny tiles and on large ones.',
  needs: GROUND,
  async run(bench) {
    const trials = [...fixedTrials(bench), ...bareGround(bench.effect, HOME)];
    const fixed = await overTrials(bench, trials, (sample) => {
      for (const density of DENSITIES) tryTranslates(bench, atDensity(sample, density));
    });
    const sheared = await overTrials(bench, shearedTrials(bench), (sample) =>
      tryTranslates(bench, sample, NEAREST),
    );
    const small = await tryBlank(bench);
    const tryRepeat = (sample: Sample) => tryTranslates(bench, sample, NEAREST, FARTHEST);
    const long = await tryLarge(bench, tryRepeat);
    const walls = await tryWalls(bench, long, (sample) =>
      tryTranslates(bench, sample, NEAREST, FARTHEST, ROUNDING),
    );
    await tryNarrow(bench, tryRepeat);
    const random = await searchTrials(
      bench,
      {
        trials: anyTrial(bench.effect.parameters, bench.quick ? 'sketch' : 'finished'),
        runs: RANDOM_RUNS,
        budget: openBudget(bench, RANDOM_SECONDS),
      },
      async (trial) => tryTranslates(bench, await bench.shared(trial)),
    );
    const settings = fixed.tried + sheared.tried + random.tried + small + long.tried + walls.tried;
    return {
      status: 'passed',
      figures: {
        settings,
        'boxes up to 930 mm': long.tried,
        'square boxes': walls.tried,
        'mm of the largest': walls.largest,
      },
    };
  },
};

function fixedTrials({ quick }: Bench): Trial[] {
  const [[width, height]] = SIZES;
  if (quick) {
    const layouts = LAYOUTS.map((layout) => ({ ...SKETCHED, layout }));
    const odd = { ...HOME, width, height, quality: 'sketch' as const };
    return [HOME, odd, ...layouts, { ...HOME, layout: 'drop:1/3', width: 3, height: 2 }];
  }
  return LAYOUTS.flatMap((layout) => SIZES.map(([width, height]) => ({ ...HOME, layout, width, height })));
}

function shearedTrials({ effect, quick }: Bench): Trial[] {
  const sheared = ['drop', 'brick'].flatMap((kind) =>
    SHEARS.map((shear) => ({ ...(quick ? SKETCHED : SMALL), layout: `${kind}:${shear}` })),
  );
  const otherwise = words(effect, SKETCHED).flatMap((trial) => KINDS.map((layout) => ({ ...trial, layout })));
  return [...sheared, ...thinned(otherwise, quick ? QUICK_WORDS : otherwise.length)];
}

/** @throws Failed where a band moved by a lattice vector is not the same, but for the last bits. */
export function tryTranslates(
  bench: Bench,
  sample: Sample,
  translates: readonly (readonly [number, number])[] = TRANSLATES,
  places: readonly (readonly [number, number])[] = [],
  tolerance = LAST_BITS,
): void {
  const { lattice, width, height } = sample.grid;
  const { ax, ay, bx, by } = lattice;
  for (const [across, down] of [[0, 0], ...places]) {
    const band = {
      ...CORNER,
      x: CORNER.x + Math.round(across * width),
      y: CORNER.y + Math.round(down * height),
    };
    const home = bench.paint(sample, band);
    for (const [m, n] of translates) {
      const [dx, dy] = [m * ax + n * bx, m * ay + n * by];
      const there = bench.paint(sample, { ...band, x: band.x + dx, y: band.y + dy });
      const difference = differenceOf(home, there, tolerance);
      if (difference) throw notPeriodic(bench, sample, [home, there], difference, [dx, dy]);
    }
  }
}

function notPeriodic(
  bench: Bench,
  sample: Sample,
  [home, there]: readonly [AnyLayer, AnyLayer],
  difference: Difference,
  [dx, dy]: readonly [number, number],
): Failed {
  const { layout } = sample.trial;
  return new Failed(sample.trial, {
    expected: `the same floats one repeat further on, moved by (${dx}, ${dy}) px in layout ${layout}`,
    received: describeDifference(difference),
    remedy:
      difference.size < ROUNDING
        ? TOO_ROUGH
        : isThin(difference, home)
          ? `${remedyFor(layout)} ${ROUNDED}`
          : (squareAside(bench, sample) ?? remedyFor(layout)),
    picture: sideBySide([showDifference(home, there), showPlane(bench, sample)], SHOWN),
  });
}

/** A steep edge that falls into the next pixel differs much, but along a thin line alone. */
function isThin({ count }: Difference, { width, height }: AnyLayer): boolean {
  return count <= THIN * width * height;
}

/** Where it closes over the same box once pixels are square, that is the cause, whatever the layout. */
function squareAside(bench: Bench, sample: Sample): string | undefined {
  if (isSquare(sample)) return undefined;
  const square = SQUARE.map((density) => atDensity(sample, density)).find(isSquare);
  if (!square) return undefined;
  try {
    tryTranslates(bench, square, NEAREST);
  } catch (error) {
    if (error instanceof Failed) return undefined;
    throw error;
  }
  const { mmPerPixelX, mmPerPixelY } = sample.grid;
  return `It closes where pixels are square, and here they are ${mmPerPixelX.toFixed(5)} x ${mmPerPixelY.toFixed(5)} mm: places down the page come of band.mmPerPixelY, those across of mmPerPixelX.`;
}

function isSquare({ grid: { mmPerPixelX, mmPerPixelY } }: Sample): boolean {
  return Math.abs(mmPerPixelX / mmPerPixelY - 1) < 1e-9;
}

function remedyFor(layout: string): string {
  if (layout.startsWith('drop')) {
    return 'In a drop layout the next repeat across stands lower by box.lattice.ay: f(x + ax, y + ay) = f(x, y).';
  }
  if (layout.startsWith('brick')) {
    return 'In a brick layout the next repeat down stands further across by box.lattice.bx: f(x + bx, y + by) = f(x, y).';
  }
  return 'Let every frequency, cell and point repeat with box.width and box.height.';
}

/** Part of the plane with the edges of the repeats in red. */
function showPlane(bench: Bench, sample: Sample): ProofPicture {
  const { ax, ay, bx, by } = sample.grid.lattice;
  const width = Math.min(2 * ax, 320);
  const height = Math.min(2 * by, 240);
  const [x, y] = [Math.round(ax - width / 2), Math.round(by - height / 2)];
  const picture = showLayer(bench.paint(sample, { x, y, width, height }));
  for (let m = -2; m <= 4; m++) {
    for (let n = -6; n <= 8; n++) {
      const [left, top] = [m * ax + n * bx - x, m * ay + n * by - y];
      fillRectangle(picture, [left, top, ax, 1]);
      fillRectangle(picture, [left, top, 1, by]);
    }
  }
  return picture;
}
