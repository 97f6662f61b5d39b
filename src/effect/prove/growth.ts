import type { Bench } from './bench.ts';
import { Failed, Refused } from './failed.ts';
import { megabytesOf } from './model-bytes.ts';
import { crowded } from './sizes.ts';
import { HOME, type Trial } from './trial.ts';

/** mm of the smallest and of the largest square box. */
const SIDES = { first: 12, last: 640 };
/** How many times the area a box has of the one before: on the way up, and where it is looked at closely. */
const TIMES = { climb: 3, close: 1.7 };
/** ms from which on times say how they grow. */
const LEAST_MS = { climb: 90, close: 60 };
/** Of each box: a machine that is busy elsewhere holds up some of them. */
const RUNS = 6;
/** MB of the model of the last box: the next one will take more. */
const MOST_MEGABYTES = 96;
/** Sound effects grow with the area or a little faster, as tables outgrow the processor's memory; all pairs with its square. */
const POWERS = { suspect: 1.4, each: 1.4, both: 1.6 };
const TILE_MM2 = 640 ** 2;
const MOST_TILE_MS = 60_000;

interface Timed {
  readonly trial: Trial;
  /** mm2 */
  readonly area: number;
  readonly ms: number;
}

/**
 * Prepares boxes of growing area with as much in them as can be, until they take long enough to see how the time
 * grows; where it seems to grow faster than the area, the least of several runs over three areas decides.
 *
 * @throws Failed where it does, so that a tile of production would take minutes.
 */
export async function tryGrowth(bench: Bench, now: () => number): Promise<void> {
  const known: Timed[] = [];
  for (let { first: side } = SIDES; side <= SIDES.last; side *= Math.sqrt(TIMES.climb)) {
    const timed = await steady(bench, now, side);
    if (timed === 'refused') continue;
    if (timed === 'large') return;
    known.push(timed);
    if (timed.ms < LEAST_MS.climb || known.length < 2) continue;
    if (await isSuspect(bench, now, known.at(-2)!, timed)) await requireGrowth(bench, now, side);
    return;
  }
}

/** What takes long may only have been held up: it is run once more. */
async function steady(bench: Bench, now: () => number, side: number): ReturnType<typeof prepareTimed> {
  const first = await prepareTimed(bench, now, side);
  if (typeof first === 'string' || first.ms < LEAST_MS.climb) return first;
  const again = await prepareTimed(bench, now, side);
  return typeof again !== 'string' && again.ms < first.ms ? again : first;
}

/** Where times may be wrong the smaller box is run again: it may have been held up. */
async function isSuspect(bench: Bench, now: () => number, before: Timed, last: Timed): Promise<boolean> {
  if (foretold(last, 2) <= MOST_TILE_MS) return false;
  for (let run = 0; run < RUNS; run++) {
    if (powerOf(before, last) >= POWERS.suspect) return true;
    const again = await prepareTimed(bench, now, before.trial.width);
    if (typeof again === 'string') return false;
    if (again.ms < before.ms) before = again;
  }
  return false;
}

async function requireGrowth(bench: Bench, now: () => number, side: number): Promise<void> {
  const sides = [-1, 0, 1].map((step) => side * TIMES.close ** (step / 2));
  const boxes = await fastest(bench, now, sides);
  if (!boxes) return;
  const [small, middle, large] = boxes;
  const power = powerOf(small, large);
  const tile = foretold(large, power);
  const steps = [powerOf(small, middle), powerOf(middle, large)];
  if (large.ms < LEAST_MS.close || power < POWERS.both || Math.min(...steps) < POWERS.each) return;
  if (tile <= MOST_TILE_MS) return;
  throw new Failed(large.trial, {
    expected: 'prepare to take time with the area of the box, or at most a minute for a tile of 640 x 640 mm',
    received: `${boxes.map(describeTimed).join(', ')}: it grows with the area to the power of ${power.toFixed(1)}, so that such a tile takes some ${Math.round(tile / 60_000)} minutes`,
    remedy:
      'Look for pairs of all with all, a loop over all in a loop over all: indexPoints finds the points near a place, and its nearestTwo the nearest ones.',
  });
}

function describeTimed({ trial, ms }: Timed): string {
  return `${Math.round(ms)} ms for ${Math.round(trial.width)} x ${Math.round(trial.height)} mm`;
}

/** The least of several runs each, by turns, so that a machine which slows down does so for all. */
async function fastest(
  bench: Bench,
  now: () => number,
  sides: readonly number[],
): Promise<Timed[] | undefined> {
  const least: Timed[] = [];
  for (let run = 0; run < RUNS; run++) {
    for (const [k, side] of sides.entries()) {
      const timed = await prepareTimed(bench, now, side);
      if (typeof timed === 'string') return undefined;
      if (!least[k] || timed.ms < least[k].ms) least[k] = timed;
    }
  }
  return least;
}

async function prepareTimed(
  bench: Bench,
  now: () => number,
  side: number,
): Promise<Timed | 'refused' | 'large'> {
  const trial: Trial = {
    ...HOME,
    layout: 'straight',
    width: side,
    height: side,
    parameters: crowded(bench.effect),
  };
  const started = now();
  try {
    const sample = await bench.prepare(trial);
    const ms = now() - started;
    return megabytesOf(sample) > MOST_MEGABYTES ? 'large' : { trial, area: side ** 2, ms };
  } catch (error) {
    if (error instanceof Refused) return 'refused';
    throw error;
  }
}

function powerOf(small: Timed, large: Timed): number {
  return Math.log(large.ms / small.ms) / Math.log(large.area / small.area);
}

/** ms of a tile of production. */
function foretold({ area, ms }: Timed, power: number): number {
  return ms * (TILE_MM2 / area) ** power;
}
