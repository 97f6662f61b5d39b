import type { Bench } from './bench.ts';
import { type Budget, openBudget } from './budget.ts';
import { Failed, Refused } from './failed.ts';
import { HOME, type Trial } from './trial.ts';
import { SMALL, variants } from './vary.ts';

/** mm of square boxes; the largest that can be afforded says what a tile of production will take. */
const SIDES = [60, 120, 240, 480, 640];
const TILE_MM2 = 640 ** 2;
/** What preparing one may take, ms, and how long it must take to say anything. */
const MOST_MS = 2000;
const LEAST_MS = 60;
/** s without a call in such a tile: one of 1.8 m, of eight times its area, then stays below the 120 s of a render. */
const LONGEST_IN_A_TILE = 15;
/** What is foretold to be so much shorter needs no larger box. */
const FAR_BELOW = 3;
/** s of work for looking which values are dearest, and for all: what is begun by then is ended. */
const SECONDS = { dearest: { quick: 0, whole: 2 }, all: { quick: 0, whole: 8 } };
/** Settings that are dearest to prepare, besides the defaults. */
const DEAREST = 2;
/** A busy machine may hold anybody up once. */
const ATTEMPTS = 3;

interface Heard {
  readonly trial: Trial;
  readonly ms: number;
  /** ms of the longest stretch without a call of progress. */
  readonly silence: number;
}

/**
 * Foretells from boxes that are quickly prepared how long prepare would say nothing in a tile of production, at the
 * defaults and where it takes longest.
 *
 * @param now A clock of work, ms.
 * @returns How many settings were listened to, and how many of them only in smaller boxes, or not, because the time for
 *   it was over.
 * @throws Failed where that is too long.
 */
export async function trySilence(bench: Bench, now: () => number): Promise<Listened> {
  if (bench.quick) return { listened: 0, left: 0 };
  const budget = openBudget({ now }, SECONDS.all);
  const settings = await dearest(bench, now);
  let left = 0;
  for (const parameters of settings) {
    const heard = await climb(bench, now, { parameters, budget });
    if (budget.isOver()) left++;
    if (!heard || foretold(heard) <= LONGEST_IN_A_TILE) continue;
    let least = heard;
    for (let attempt = 1; attempt < ATTEMPTS; attempt++) {
      const again = await listen(bench, now, heard.trial);
      if (again.silence < least.silence) least = again;
    }
    if (foretold(least) > LONGEST_IN_A_TILE) throw silent(least);
  }
  return { listened: settings.length - left, left };
}

interface Listened {
  readonly listened: number;
  readonly left: number;
}

/** The defaults, and what takes longest of all extremes. */
async function dearest(bench: Bench, now: () => number): Promise<Trial['parameters'][]> {
  const timed: { ms: number; parameters: Trial['parameters'] }[] = [];
  const budget = openBudget({ now }, SECONDS.dearest);
  for (const trial of variants(bench.effect, SMALL).slice(1)) {
    if (budget.isOver()) break;
    try {
      timed.push({ ms: (await listen(bench, now, trial)).ms, parameters: trial.parameters });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
    }
  }
  timed.sort((a, b) => b.ms - a.ms);
  return [{}, ...timed.slice(0, DEAREST).map(({ parameters }) => parameters)];
}

async function climb(
  bench: Bench,
  now: () => number,
  { parameters, budget }: { readonly parameters: Trial['parameters']; readonly budget: Budget },
): Promise<Heard | undefined> {
  let last: Heard | undefined;
  for (const side of SIDES) {
    if (budget.isOver()) break;
    if (last && (last.ms * side ** 2) / areaOf(last.trial) > MOST_MS) break;
    if (last && last.ms >= LEAST_MS && foretold(last) < LONGEST_IN_A_TILE / FAR_BELOW) break;
    try {
      const trial: Trial = { ...HOME, layout: 'straight', width: side, height: side, parameters };
      last = await listen(bench, now, trial);
    } catch (error) {
      if (error instanceof Refused) break;
      throw error;
    }
  }
  return last && last.ms >= LEAST_MS ? last : undefined;
}

async function listen(bench: Bench, now: () => number, trial: Trial): Promise<Heard> {
  const started = now();
  let [last, silence] = [started, 0];
  const beat = () => {
    const moment = now();
    silence = Math.max(silence, moment - last);
    last = moment;
  };
  await bench.prepare(trial, { onProgress: beat });
  beat();
  return { trial, ms: last - started, silence };
}

/** s in a tile of production: most work grows with the area. */
function foretold({ trial, silence }: Heard): number {
  return ((silence / 1000) * TILE_MM2) / areaOf(trial);
}

function silent(heard: Heard): Failed {
  const { trial, ms, silence } = heard;
  const inSeconds = (value: number) => (value / 1000).toFixed(1);
  return new Failed(trial, {
    expected: `prepare to call progress at least every ${LONGEST_IN_A_TILE} s in a tile of 640 x 640 mm`,
    received: `${inSeconds(silence)} s of silence in the ${inSeconds(ms)} s that ${trial.width} x ${trial.height} mm take, some ${Math.round(foretold(heard))} s in such a tile: nobody could give it up meanwhile, and a wall is stopped after 120 s`,
    remedy: 'Call progress(done) in the longest loop, at every step of a simulation or every row of a grid.',
  });
}

function areaOf({ width, height }: Trial): number {
  return width * height;
}
