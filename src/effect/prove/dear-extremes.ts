import { atDensity, type Bench, type Sample } from './bench.ts';
import { openBudget } from './budget.ts';
import { Failed } from './failed.ts';
import { megabytesOf } from './model-bytes.ts';
import type { Trial } from './trial.ts';
import { unlessRefused } from './unless-refused.ts';
import { overTrials, SKETCHED, SMALL, variants } from './vary.ts';

/** What an effect may take. */
export interface CostLimits {
  /** ms per megapixel. */
  readonly paintMs: number;
  /** ms for 100 x 100 mm. */
  readonly prepareMs: number;
  /** MB for a tile of 640 x 640 mm. */
  readonly modelMb: number;
}

/** A band that costs little to paint, and yet says what a megapixel would. */
const GLANCE = { x: -9, y: 5, width: 96, height: 6 };
const GLANCES = 12;
/** How many times the limit is refused at an extreme: a glance at few pixels says no more. */
const SLACK = 2;
/** px/mm, 203, 30 and 1,200 dpi: what goes by the samples to a pixel, or the pixels to a mm, is dear in one of them. */
const DENSITIES = [SMALL.pixelsPerMm, 1.2, 47.2];
/** mm of a box that is dear in every way if the small one is. */
const LARGER = { width: 60, height: 48 };
const SQUARE_DM2 = 100 ** 2;
const TILE_MM2 = 640 ** 2;
/** What is spent on preparing once more, s. */
const SECONDS = { quick: 0, whole: 12 };

/**
 * Looks at every extreme of every parameter what a model takes, and its paint at several densities.
 *
 * @param now A clock of work, ms.
 * @param base The box at which what is dear in a small one is looked at again: what is larger than a small box lies over
 *   itself there.
 * @returns The most ms per megapixel.
 * @throws Failed
 */
export async function tryDearExtremes(
  bench: Bench,
  now: () => number,
  { base, limits }: { readonly base: Trial; readonly limits: CostLimits },
): Promise<number> {
  let dearest = 0;
  await overTrials(bench, variants(bench.effect, SKETCHED), async (small) => {
    for (const density of DENSITIES) {
      const ms = await paintMs(bench, now, atDensity(small, density), { base, limits });
      dearest = Math.max(dearest, ms);
    }
    await tryModelSize(bench, small, limits.modelMb);
  });
  await tryPrepareTime(bench, now, limits.prepareMs);
  return dearest;
}

async function paintMs(
  bench: Bench,
  now: () => number,
  small: Sample,
  { base, limits }: { readonly base: Trial; readonly limits: CostLimits },
): Promise<number> {
  const first = fastestOf(bench, small, { band: GLANCE, count: 1, now });
  if (first <= limits.paintMs) return first;
  const { parameters, pixelsPerMm } = small.trial;
  const large = await bench.prepare({ ...base, quality: 'sketch', parameters, pixelsPerMm });
  // The least of many short ones: another program on the machine holds up only some.
  const ms = fastestOf(bench, large, { band: GLANCE, count: GLANCES, now });
  // A little over it is for the machine to be slow; the density of every check is held to it elsewhere.
  if (ms <= SLACK * limits.paintMs) return ms;
  throw new Failed(large.trial, {
    expected: `at most ${limits.paintMs} ms of paint per megapixel at every extreme, from 30 to 1,200 dpi`,
    received: `${Math.round(ms)}`,
    remedy:
      'Bound what one pixel takes: let a parameter that asks for more of something not ask it of every pixel, and let no count of samples grow with the size of a pixel.',
  });
}

async function tryModelSize(bench: Bench, small: Sample, most: number): Promise<void> {
  const first = megabytesOf(small);
  if (foretold(first, areaOf(small.trial), TILE_MM2) <= most) return;
  const large = await unlessRefused(() => bench.prepare({ ...small.trial, ...LARGER }));
  if (!large) return;
  const tile = foretoldBy([small.trial, first], [large.trial, megabytesOf(large)], TILE_MM2);
  if (tile <= most) return;
  throw new Failed(large.trial, {
    expected: `at most ${most} MB of model for a tile of 640 x 640 mm at every extreme`,
    received: `${megabytesOf(large).toFixed(1)} MB for ${LARGER.width} x ${LARGER.height} mm, some ${Math.round(tile)} MB in such a tile`,
    remedy: 'Keep less per mm2, or keep it coarser: paint can work out the rest.',
  });
}

/** What takes long in a small box is prepared in a larger one: what does not grow is there once. */
async function tryPrepareTime(bench: Bench, now: () => number, most: number): Promise<void> {
  const budget = openBudget({ now, quick: bench.quick }, SECONDS);
  await overTrials(
    bench,
    variants(bench.effect, SMALL),
    async ({ trial }) => {
      const first = await prepareMs(bench, now, trial);
      if (foretold(first, areaOf(trial), SQUARE_DM2) <= most) return;
      const larger = { ...trial, ...LARGER };
      const ms = await unlessRefused(() => prepareMs(bench, now, larger));
      const whole = ms === undefined ? 0 : foretoldBy([trial, first], [larger, ms], SQUARE_DM2);
      if (whole <= most) return;
      throw new Failed(larger, {
        expected: `at most ${most} ms of prepare for 100 x 100 mm at every extreme`,
        received: `${Math.round(ms!)} ms for ${LARGER.width} x ${LARGER.height} mm, some ${Math.round(whole)} in such a box`,
        remedy: 'Bound what a parameter can ask for, or work on a coarser grid where it asks for more.',
      });
    },
    () => budget.isOver(),
  );
}

async function prepareMs(bench: Bench, now: () => number, trial: Trial): Promise<number> {
  const started = now();
  await bench.prepare(trial);
  return now() - started;
}

function foretold(amount: number, area: number, other: number): number {
  return (amount * other) / area;
}

function foretoldBy(
  [small, less]: readonly [Trial, number],
  [large, more]: readonly [Trial, number],
  area: number,
): number {
  const perMm2 = Math.max(0, more - less) / (areaOf(large) - areaOf(small));
  return more + perMm2 * (area - areaOf(large));
}

function areaOf({ width, height }: Trial): number {
  return width * height;
}

interface Timing {
  readonly band: typeof GLANCE;
  readonly count: number;
  readonly now: () => number;
}

/** ms per megapixel, of the fastest of so many bands one below the other. */
export function fastestOf(bench: Bench, sample: Sample, { band, count, now }: Timing): number {
  let fastest = Number.POSITIVE_INFINITY;
  for (let k = 0; k < count; k++) {
    const before = now();
    bench.paint(sample, { ...band, y: band.y + k * band.height });
    fastest = Math.min(fastest, now() - before);
  }
  return (fastest * 1e6) / (band.width * band.height);
}
