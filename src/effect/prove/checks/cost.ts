import type { Bench, Sample } from '../bench.ts';
import type { Check } from '../check.ts';
import { fastestOf, tryDearExtremes } from '../dear-extremes.ts';
import { Failed } from '../failed.ts';
import { tryGrowth } from '../growth.ts';
import { megabytesOf } from '../model-bytes.ts';
import { tryTileMemory } from '../tile-memory.ts';
import { HOME, type Trial } from '../trial.ts';
import { tryWholeBoxes } from '../whole-box.ts';

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
const LIMITS = { paintMs: MOST_PAINT_MS, prepareMs: MOST_PREPARE_MS, modelMb: MOST_MODEL_MB };

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
    if (clock) await tryWholeBoxes(bench, clock, { sample, ms: prepareMs! });
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
    const dearest = clock && (await tryDearExtremes(bench, clock, { base: TRIAL, limits: LIMITS }));
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

function requireAtMost(value: number | undefined, most: number, what: string, remedy: string): void {
  if (value === undefined || value <= most) return;
  throw new Failed(TRIAL, { expected: `at most ${most} ${what}`, received: `${Math.round(value)}`, remedy });
}
