import type { Bench, Sample } from '../bench.ts';
import type { Check } from '../check.ts';
import { Failed } from '../failed.ts';
import { tryGrowth } from '../growth.ts';
import { megabytesOf } from '../model-bytes.ts';
import { tryTileMemory } from '../tile-memory.ts';
import { HOME, type Trial } from '../trial.ts';
import { overTrials, SKETCHED, variants } from '../vary.ts';
import { tryWholeBox } from '../whole-box.ts';

/** One square decimetre at 300 dpi. */
const TRIAL: Trial = { ...HOME, layout: 'straight', width: 100, height: 100, pixelsPerMm: 11.8 };
/** A quarter of it, to tell what grows with the box. */
const SMALLER: Trial = { ...TRIAL, width: 50, height: 50 };
const BAND = { x: 0, y: 300, width: 512, height: 128 };
const PAINTS = 3;
/** A production tile is 57 megapixels: at this rate two workers take ten minutes over it. */
const MOST_PAINT_MS = 20_000;
const MOST_PREPARE_MS = 60_000;
/** Every worker may have to hold it: this much for a tile of production, 640 x 640 mm. */
const MOST_MODEL_MB = 512;
const TILE_DM2 = 6.4 ** 2;
/** A band that costs little to paint, and yet says what a megapixel would. */
const GLANCE = { x: -9, y: 5, width: 96, height: 6 };
const GLANCES = 12;

export const cost: Check = {
  name: 'cost',
  promise: 'Its work and its model are bounded.',
  needs: ['runs'],
  async run(bench) {
    const clock = bench.work ?? bench.now;
    const started = clock?.();
    const sample = await bench.prepare(TRIAL);
    const prepareMs = started === undefined ? undefined : clock!() - started;
    const modelMb = megabytesOf(sample);
    if (clock) await tryWholeBox(bench, clock, { sample, ms: prepareMs! });
    const paintMs = clock && fastestPaint(bench, sample, clock);
    requireAtMost(
      tileMegabytes(await bench.prepare(SMALLER), sample),
      MOST_MODEL_MB,
      'MB of model for a tile of 640 x 640 mm',
      'Keep less per mm2, or keep it coarser: paint can work out the rest.',
    );
    requireAtMost(prepareMs, MOST_PREPARE_MS, 'ms of prepare for 100 x 100 mm', 'Work on a coarser grid.');
    requireAtMost(
      paintMs,
      MOST_PAINT_MS,
      'ms of paint per megapixel',
      'Move into prepare whatever is the same for all bands.',
    );
    if (clock) await tryGrowth(bench, clock);
    const tile = clock && (await tryTileMemory(bench, clock));
    const dearest = clock && (await dearestPaint(bench, clock));
    return {
      status: 'passed',
      note: paintMs === undefined ? 'without a clock only the model is measured' : undefined,
      figures: {
        ...(prepareMs !== undefined && { 'prepare ms per square decimetre': Math.round(prepareMs) }),
        ...(paintMs !== undefined && { 'paint ms per megapixel': Math.round(paintMs) }),
        ...(dearest !== undefined && {
          'paint ms per megapixel at its dearest extreme': Math.round(dearest),
        }),
        'model kB per square decimetre': Math.round(modelMb * 1024),
        ...(tile && {
          'MB at the most while a large box is prepared': Math.round(tile.megabytes),
          'mm of the largest box so watched': tile.side,
          ...(tile.isCrowdedLeft && { 'crowded boxes that time was too short for': 1 }),
        }),
      },
    };
  },
};

/** What does not grow with the box is there once; the rest grows with its area. */
function tileMegabytes(smaller: Sample, larger: Sample): number {
  const [few, many] = [megabytesOf(smaller), megabytesOf(larger)];
  const [small, large] = [smaller, larger].map(({ trial }) => (trial.width * trial.height) / 1e4);
  return Math.max(many, many + (Math.max(0, many - few) / (large - small)) * (TILE_DM2 - large));
}

function fastestPaint(bench: Bench, sample: Sample, now: () => number): number {
  return fastestOf(bench, sample, { band: BAND, count: PAINTS, now });
}

/**
 * Paints a little at every extreme of every parameter. What is dear over a small box is looked at again over a
 * large one: what is larger than a small box lies over itself there.
 *
 * @returns The most ms per megapixel.
 * @throws Failed
 */
async function dearestPaint(bench: Bench, now: () => number): Promise<number> {
  let dearest = 0;
  const look = (count: number) => (sample: Sample) => fastestOf(bench, sample, { band: GLANCE, count, now });
  await overTrials(bench, variants(bench.effect, SKETCHED), async (small) => {
    const first = look(1)(small);
    if (first <= MOST_PAINT_MS) {
      dearest = Math.max(dearest, first);
      return;
    }
    const large = await bench.prepare({ ...TRIAL, quality: 'sketch', parameters: small.trial.parameters });
    // The least of many short ones: another program on the machine holds up only some.
    const ms = look(GLANCES)(large);
    dearest = Math.max(dearest, ms);
    requireAtMost(
      ms,
      MOST_PAINT_MS,
      'ms of paint per megapixel at every extreme',
      'Bound what one pixel takes: let a parameter that asks for more of something not ask it of every pixel.',
      large.trial,
    );
  });
  return dearest;
}

interface Timing {
  readonly band: typeof BAND;
  readonly count: number;
  readonly now: () => number;
}

/** ms per megapixel. */
function fastestOf(bench: Bench, sample: Sample, { band, count, now }: Timing): number {
  let fastest = Number.POSITIVE_INFINITY;
  for (let k = 0; k < count; k++) {
    const before = now();
    bench.paint(sample, { ...band, y: band.y + k * band.height });
    fastest = Math.min(fastest, now() - before);
  }
  return (fastest * 1e6) / (band.width * band.height);
}

function requireAtMost(
  value: number | undefined,
  most: number,
  what: string,
  remedy: string,
  trial: Trial = TRIAL,
): void {
  if (value === undefined || value <= most) return;
  throw new Failed(trial, { expected: `at most ${most} ${what}`, received: `${Math.round(value)}`, remedy });
}
