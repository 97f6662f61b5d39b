import type { Bench } from '../bench.ts';
import type { Check } from '../check.ts';
import { bytesIn } from '../compare.ts';
import { Failed } from '../failed.ts';
import { HOME, type Trial } from '../trial.ts';

/** One square decimetre at 300 dpi. */
const TRIAL: Trial = { ...HOME, layout: 'straight', width: 100, height: 100, pixelsPerMm: 11.8 };
const BAND = { x: 0, y: 300, width: 512, height: 128 };
const PAINTS = 3;
/** A production tile is 57 megapixels: at this rate two workers take ten minutes over it. */
const MOST_PAINT_MS = 20_000;
const MOST_PREPARE_MS = 60_000;
/** Every worker may have to hold it. */
const MOST_MODEL_MB = 512;

export const cost: Check = {
  name: 'cost',
  promise: 'Its work and its model are bounded.',
  needs: ['runs'],
  async run(bench) {
    const started = bench.now?.();
    const sample = await bench.prepare(TRIAL);
    const prepareMs = started === undefined ? undefined : bench.now!() - started;
    const modelMb = bytesIn(sample.model) / 2 ** 20;
    const paintMs = bench.now && fastestPaint(bench, sample, bench.now);
    requireAtMost(
      modelMb,
      MOST_MODEL_MB,
      'MB of model for 100 x 100 mm',
      'Keep less, or keep it coarser: paint can work out the rest.',
    );
    requireAtMost(prepareMs, MOST_PREPARE_MS, 'ms of prepare for 100 x 100 mm', 'Work on a coarser grid.');
    requireAtMost(
      paintMs,
      MOST_PAINT_MS,
      'ms of paint per megapixel',
      'Move into prepare whatever is the same for all bands.',
    );
    return {
      status: 'passed',
      note: paintMs === undefined ? 'without a clock only the model is measured' : undefined,
      figures: {
        ...(prepareMs !== undefined && { 'prepare ms per square decimetre': Math.round(prepareMs) }),
        ...(paintMs !== undefined && { 'paint ms per megapixel': Math.round(paintMs) }),
        'model kB per square decimetre': Math.round(modelMb * 1024),
      },
    };
  },
};

function fastestPaint(
  bench: Bench,
  sample: Awaited<ReturnType<Bench['prepare']>>,
  now: () => number,
): number {
  let fastest = Number.POSITIVE_INFINITY;
  for (let k = 0; k < PAINTS; k++) {
    const before = now();
    bench.paint(sample, { ...BAND, y: BAND.y + k * BAND.height });
    fastest = Math.min(fastest, now() - before);
  }
  return (fastest * 1e6) / (BAND.width * BAND.height);
}

function requireAtMost(value: number | undefined, most: number, what: string, remedy: string): void {
  if (value === undefined || value <= most) return;
  throw new Failed(TRIAL, { expected: `at most ${most} ${what}`, received: `${Math.round(value)}`, remedy });
}
