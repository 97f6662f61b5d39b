import type { AnyLayer } from '../layer.ts';
import { atDensity, type Bench, type Sample } from './bench.ts';
import { channelsOf, deviationOf } from './channels.ts';
import { differenceOf } from './compare.ts';
import { Refused } from './failed.ts';
import { fingerprintOf } from './fingerprint.ts';
import { alike, flat, type Painted, refusedSeed } from './seed-faults.ts';
import { EASILY_MISREAD, ODD_SEEDS, seedTexts, UNLIKE_SEEDS } from './seed-texts.ts';
import type { Trial } from './trial.ts';
import { requireSound } from './try-sound.ts';
import { SKETCHED } from './vary.ts';

/**
 * What is painted of every seed: all of a small repeat, or, where its first seeds show no difference there, as where
 * knots stand here and there, of a larger one. In the larger ones it is also looked whether what is equal in the
 * small one is equal there too. The second look is at a part in pixels that show fine detail.
 */
const PLACES: readonly Trial[] = [
  { ...SKETCHED, pixelsPerMm: 4 },
  { ...SKETCHED, width: 60, height: 48, pixelsPerMm: 2 },
  { ...SKETCHED, width: 200, height: 160, pixelsPerMm: 0.8 },
];
const CLOSE = { pixelsPerMm: 12, x: 0, y: 0, width: 144, height: 96 };
/** Pairs of equal pictures that are looked at again. */
const MOST_SECOND_LOOKS = 3;

/**
 * By the reckoning of birthdays, where there are 256 textures in all, 64 seeds give 64 different ones once in 5,000
 * times, 48 seeds once in a hundred; where there are 4,096, 256 seeds do once in 3,000 times. Where preparing takes
 * long there is no time for all, but for the least; what is left is told.
 */
const QUICK = { least: 8, most: 64, ms: 500 };
const WHOLE = { least: 48, most: 256, ms: 3000 };
/** Those that are easily taken for one come first: who reads the seed is tried with all of them. */
const LEAST_READ = 1 + EASILY_MISREAD;

/** What came of it. */
export interface SeedsTried {
  readonly tried: number;
  /** Those that there was no time for. */
  readonly left: number;
}

/**
 * Tries many seeds: that none is refused, that each gives sound numbers and a texture of the same kind, and that no
 * two give the same.
 *
 * @param looksAtSeed Whether it reads the seed itself; those who draw by `random` alone get theirs from the host.
 * @throws Failed
 */
export async function tryManySeeds(bench: Bench, looksAtSeed: boolean): Promise<SeedsTried> {
  const { least: usual, most, ms } = bench.quick ? QUICK : WHOLE;
  const least = looksAtSeed ? Math.max(usual, LEAST_READ) : usual;
  const started = bench.now?.();
  const texts = [SKETCHED.seed, ...seedTexts(most - 1)];
  const { place, painted } = await placeFor(bench, texts.slice(0, 1 + UNLIKE_SEEDS.length));
  for (const seed of texts.slice(painted.length)) {
    const isLate = started !== undefined && bench.now!() - started > ms;
    if (isLate && painted.length >= least) break;
    painted.push({ seed, layer: await paintOf(bench, { ...PLACES[place], seed }) });
  }
  await requireTextured(bench, painted, place);
  await requireDifferent(bench, painted, place, looksAtSeed);
  return { tried: painted.length, left: most - painted.length };
}

/** The first place whose first seeds all differ; the last one where they do in none. */
async function placeFor(
  bench: Bench,
  seeds: readonly string[],
): Promise<{ place: number; painted: Painted[] }> {
  let refusal: Refused | undefined;
  let last: { place: number; painted: Painted[] } | undefined;
  for (const place of PLACES.keys()) {
    refusal = await refusalOf(bench, PLACES[place]);
    if (refusal) continue;
    const painted: Painted[] = [];
    for (const seed of seeds) painted.push({ seed, layer: await paintOf(bench, { ...PLACES[place], seed }) });
    last = { place, painted };
    if (alikeIn(painted).length === 0) return last;
  }
  if (last) return last;
  throw refusal;
}

/** What an effect says that refuses the first seed here: it is the place that it does not take. */
async function refusalOf(bench: Bench, place: Trial): Promise<Refused | undefined> {
  try {
    await bench.shared({ ...place, pixelsPerMm: SKETCHED.pixelsPerMm });
    return undefined;
  } catch (error) {
    if (error instanceof Refused) return error;
    throw error;
  }
}

/** @throws Failed where the seed is refused, or gives numbers that are not sound. */
async function paintOf(bench: Bench, trial: Trial): Promise<AnyLayer> {
  const sample = await prepareSeed(bench, trial);
  const { width, height } = sample.grid;
  const view = { x: 0, y: 0, width, height };
  const layer = bench.paint(sample, view);
  requireSound(sample, layer, view);
  return layer;
}

/** Only the first seed is one that other checks look at as well. */
async function prepareSeed(bench: Bench, trial: Trial): Promise<Sample> {
  const { seed, pixelsPerMm } = trial;
  const usual = { ...trial, pixelsPerMm: SKETCHED.pixelsPerMm };
  const prepared = seed === SKETCHED.seed ? bench.shared(usual) : bench.prepare(usual);
  const sample = await prepared.catch((error) => {
    throw error instanceof Refused ? refusedSeed(error, trial) : error;
  });
  return atDensity(sample, pixelsPerMm);
}

/** @throws Failed where an odd seed gives one flat tone, here and in every larger place, and the first one does not. */
async function requireTextured(
  bench: Bench,
  [home, ...others]: readonly Painted[],
  place: number,
): Promise<void> {
  if (isFlat(home.layer)) return;
  for (const { seed, layer } of others) {
    if (!(ODD_SEEDS as readonly string[]).includes(seed) || !isFlat(layer)) continue;
    if (await isSo(bench, place, async (trial) => isFlat(await paintOf(bench, { ...trial, seed })))) {
      throw flat({ ...PLACES[place], seed }, layer);
    }
  }
}

/** @throws Failed where two seeds give the same floats, here and in every larger place. */
async function requireDifferent(
  bench: Bench,
  painted: readonly Painted[],
  place: number,
  looksAtSeed: boolean,
): Promise<void> {
  const groups = alikeIn(painted.filter(({ layer }) => !isFlat(layer)));
  for (const group of groups.slice(0, MOST_SECOND_LOOKS)) {
    if (!(await isSo(bench, place, (trial) => isAlike(bench, trial, group)))) continue;
    const others = groups.filter((other) => other !== group);
    throw alike({ ...PLACES[place], seed: group[1].seed }, [group, ...others], painted.length, looksAtSeed);
  }
}

/** Whether something holds in every place larger than this one that the effect takes. */
async function isSo(
  bench: Bench,
  place: number,
  holds: (trial: Trial) => Promise<boolean>,
): Promise<boolean> {
  for (const trial of PLACES.slice(place + 1)) {
    if (!(await refusalOf(bench, trial)) && !(await holds(trial))) return false;
  }
  return true;
}

async function isAlike(bench: Bench, trial: Trial, [first, second]: readonly Painted[]): Promise<boolean> {
  const [one, other] = [
    { ...trial, seed: first.seed },
    { ...trial, seed: second.seed },
  ];
  if (differenceOf(await paintOf(bench, one), await paintOf(bench, other))) return false;
  const closely = async (at: Trial) =>
    bench.paint(await prepareSeed(bench, { ...at, pixelsPerMm: CLOSE.pixelsPerMm }), CLOSE);
  return !differenceOf(await closely(one), await closely(other));
}

/** Those that paint the same floats, in groups of two and more, the shortest seeds first; the largest group first. */
function alikeIn(painted: readonly Painted[]): Painted[][] {
  const groups = new Map<string, Painted[]>();
  for (const one of painted) {
    const print = fingerprintOf(one.layer);
    groups.set(print, [...(groups.get(print) ?? []), one]);
  }
  const areAlike = ([first, second]: readonly Painted[]) =>
    second && !differenceOf(first.layer, second.layer);
  const sorted = [...groups.values()].map((group) => group.sort((a, b) => a.seed.length - b.seed.length));
  return sorted.filter(areAlike).sort((a, b) => b.length - a.length);
}

function isFlat(layer: AnyLayer): boolean {
  return channelsOf(layer).every(({ values }) => !(deviationOf(values) > 0));
}
