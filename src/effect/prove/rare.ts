import { HINTS } from '../hints.ts';
import type { AnyLayer } from '../layer.ts';
import type { Bench, Sample } from './bench.ts';
import { openBudget } from './budget.ts';
import { megabytesOf } from './model-bytes.ts';
import { isUnsoundAt, unsoundIn } from './sound.ts';
import { HOME, type Trial } from './trial.ts';
import { requireSound } from './try-sound.ts';
import { unlessRefused } from './unless-refused.ts';
import { asideAfter } from './walls.ts';

/** A tile of production at 100 dpi. */
const TILE: Trial = {
  ...HOME,
  layout: 'straight',
  width: 640,
  height: 640,
  pixelsPerMm: 3.94,
  quality: 'sketch',
};
/** mm of smaller boxes: each says whether the next larger one can be afforded. */
const SIDES = [15, 45, 130, 300, 640];
const SEEDS = { quick: ['prove'], whole: ['prove', '1', '2', '3'] };
/** px. Of pieces that are strewn over the tile more is met than of a whole part of it, where neighbours are alike. */
const PIECE = { width: 256, height: 16 };
/** Pieces that are looked at where no clock says how long that takes. */
const MOST_UNTIMED = 80;
/** What looking at one tile may take. */
const SECONDS = { quick: 0.1, whole: 1.1 };
/** What preparing one may take, ms, and the memory of its model. */
const MOST_MS = { quick: 40, whole: 700 };
const MOST_MEGABYTES = 96;
/** Of a piece. */
const MOST_RARE = 0.05;
/** The root of x ** 3 = x + 1: the golden ratio of the plane. */
const PLASTIC = 1.3247179572447458;

/**
 * Looks all over tiles of production for numbers that are not sound: noise goes three deviations beyond its mean
 * in some square decimetres alone.
 *
 * @throws FoundUnsound
 */
export async function tryRare(bench: Bench): Promise<void> {
  const mode = bench.quick ? 'quick' : 'whole';
  const tile = await largestOf(bench, MOST_MS[mode]);
  if (!tile) return;
  for (const seed of SEEDS[mode]) {
    const sample = await unlessRefused(() => bench.prepare({ ...tile, seed }));
    if (sample) lookAllOver(bench, sample);
  }
}

/** The tile, or a smaller one where it takes too long to prepare. */
async function largestOf(bench: Bench, mostMs: number): Promise<Trial | undefined> {
  let largest: Trial | undefined;
  for (const [step, side] of SIDES.entries()) {
    largest = { ...TILE, width: side, height: side };
    const next = SIDES[step + 1];
    if (next === undefined) break;
    if (!(await isNextAffordable(bench, largest, (next / side) ** 2, mostMs)))
      return step > 0 ? largest : undefined;
  }
  return largest;
}

async function isNextAffordable(bench: Bench, trial: Trial, times: number, mostMs: number): Promise<boolean> {
  const started = bench.now?.();
  const sample = await unlessRefused(() => bench.prepare(trial));
  if (!sample) return true;
  if (times * megabytesOf(sample) > MOST_MEGABYTES) return false;
  return started === undefined || times * (bench.now!() - started) <= mostMs;
}

/** What a large part of a piece holds is not rare: it comes of the size, for small boxes have been found sound. */
function asideOf(layer: AnyLayer): string {
  const pixels = Array.from({ length: layer.width * layer.height }, (_, pixel) => pixel);
  const count = pixels.filter((pixel) => isUnsoundAt(layer, pixel)).length;
  return count > MOST_RARE * pixels.length ? asideAfter(HOME) : HINTS.rarelyUnsound;
}

/** In pieces that come to lie further and further between those before, as long as there is time. */
function lookAllOver(bench: Bench, sample: Sample): void {
  const { width, height } = sample.grid;
  const budget = openBudget(bench, SECONDS);
  const most = bench.now ? (width * height) / (PIECE.width * PIECE.height) : MOST_UNTIMED;
  for (let k = 0; k < most && !budget.isOver(); k++) {
    const x = Math.floor(((k / PLASTIC) % 1) * width);
    const y = Math.floor(((k / PLASTIC ** 2) % 1) * height);
    const view = { ...PIECE, x, y };
    const layer = bench.paintAnyhow(sample, view);
    if (unsoundIn(layer)) requireSound(sample, layer, view, asideOf(layer));
  }
}
