import type { Bench } from '../bench.ts';
import { openBudget } from '../budget.ts';
import type { Check } from '../check.ts';
import { Failed } from '../failed.ts';
import { HOME, type Trial } from '../trial.ts';

const BAND = { x: -20, y: -12, width: 64, height: 32 };
const WARM_UP = 2;
/**
 * On a busy machine the engine is still translating code many rounds on, and keeps what it makes; that ends,
 * a leak does not.
 */
const MOST_ROUNDS = 16;
const WINDOW = 4;
const PREPARES = 3;
const PAINTS = 16;
/** A round that leaves less than this behind may be the engine's own book-keeping. */
const LEAST_BYTES = 64 * 1024;
const SMALL: Trial = { ...HOME, width: 12, height: 9 };
const TINY: Trial = { ...SMALL, width: 5, height: 4, quality: 'sketch' };
/** Small prepares, and small bands, in each round, and the time for either, s. */
const MOST_LITTLE = 1500;
const LITTLE_SECONDS = { quick: 0.02, whole: 0.06 };

export const memory: Check = {
  name: 'memory',
  promise: 'It keeps no memory from one call to the next.',
  needs: ['runs'],
  async run(bench) {
    const { memory: bytesInUse } = bench;
    if (!bytesInUse) return { status: 'not applicable', note: 'memory cannot be measured here' };
    for (let round = 0; round < WARM_UP; round++) await work(bench, round - WARM_UP);
    await nextJob();
    let before = bytesInUse();
    const grown: number[] = [];
    for (let round = 0; round < MOST_ROUNDS; round++) {
      await work(bench, round);
      await nextJob();
      const after = bytesInUse();
      grown.push(after - before);
      before = after;
      if (grown.length >= WINDOW && usualOf(grown) < LEAST_BYTES) return { status: 'passed' };
    }
    throw new Failed(SMALL, {
      expected: `no more memory in use after ${PREPARES} prepares and ${PREPARES * PAINTS} bands than before`,
      received: `${Math.round(usualOf(grown) / 1024)} kB more each time, ${MOST_ROUNDS} times over`,
      remedy: 'Keep nothing in variables of the module; what paint needs belongs in the model.',
    });
  },
};

/** What a WeakRef was asked for is held until the job ends in which it was asked; a host paints every band in its own. */
function nextJob(): Promise<void> {
  return new Promise((resolve) => later(resolve, 0));
}

/** Taken before anybody watches who leaves a timer behind. */
const later = globalThis.setTimeout;

/** Other seeds and other bands in every round: what is remembered by them grows. */
async function work(bench: Bench, round: number): Promise<void> {
  for (let count = 0; count < PREPARES; count++) {
    const sample = await bench.prepare({ ...SMALL, seed: `${SMALL.seed}-${round}-${count}` });
    const top = BAND.y + round * PAINTS * BAND.height;
    for (let k = 0; k < PAINTS; k++) bench.paint(sample, { ...BAND, y: top + k * BAND.height });
  }
  await workInLittle(bench, round);
}

/** As many small calls as there is time for: what each leaves behind is little, too. */
async function workInLittle(bench: Bench, round: number): Promise<void> {
  const prepares = openBudget(bench, LITTLE_SECONDS);
  let sample = await bench.prepare(TINY);
  for (let count = 0; count < MOST_LITTLE && !prepares.isOver(); count++)
    sample = await bench.prepare({ ...TINY, seed: `${round}/${count}` });
  const paints = openBudget(bench, LITTLE_SECONDS);
  for (let count = 0; count < MOST_LITTLE && !paints.isOver(); count++)
    bench.paint(sample, { x: count, y: round, width: 1, height: 1 });
}

/** Of the last rounds the second least: in one the engine may give back what an earlier check had left behind. */
function usualOf(grown: readonly number[]): number {
  return grown.slice(-WINDOW).sort((a, b) => a - b)[1];
}
