import type { Bench } from './bench.ts';
import { openBudget } from './budget.ts';
import { Failed } from './failed.ts';
import { crowded } from './sizes.ts';
import { HOME, type Trial } from './trial.ts';
import { unlessRefused } from './unless-refused.ts';
import { words } from './vary.ts';

/** mm of square boxes up to a tile of production: each says whether the next one can be afforded. */
const SIDES = [100, 320, 640];
const TILE_MM2 = 640 ** 2;
/** What preparing one may take, ms. */
const MOST_MS = 4000;
/** s of work for all of them: what is begun by then is ended. */
const SECONDS = { quick: 0, whole: 8 };
/** What a render is stopped at, MB. */
const MOST_MEGABYTES = 768;
/** Where a box of so many mm2 foretells so much less, no larger one is prepared. */
const LEAST_AREA = 320 ** 2;
const FAR_BELOW = 3;
/** Where a smaller box foretells it, more has to be foretold: some memory is there once. */
const MOST_FORETOLD = 1.5;

interface Prepared {
  readonly trial: Trial;
  readonly ms: number;
  /** MB that the process grew by at the most while it was prepared, as far as can be seen. */
  readonly megabytes: number;
}

/**
 * Prepares tiles of growing size, at the defaults and with as much in them as can be, and looks how far the process grows
 * meanwhile: what passes through prepare counts as well as the model that is left.
 *
 * @param now A clock of work, ms.
 * @returns What was seen; nothing where it was not measured.
 * @throws Failed where a tile of production takes more than a render may.
 */
export async function tryTileMemory(bench: Bench, now: () => number): Promise<TileMemory | undefined> {
  if (bench.quick || !bench.footprint || !bench.memory) return undefined;
  const full = crowded(bench.effect);
  const settings = [
    {},
    full,
    ...words(bench.effect).map(({ parameters }) => ({ ...full, ...parameters })),
  ].filter((parameters, k) => k === 0 || Object.keys(parameters).length > 0);
  const budget = openBudget({ now }, SECONDS);
  const seen: Prepared[] = [];
  for (const parameters of settings) {
    if (budget.isOver()) break;
    const last = await climb(bench, now, parameters);
    if (!last) continue;
    requireBounded(last);
    seen.push(last);
  }
  if (seen.length === 0) return undefined;
  return {
    megabytes: Math.max(...seen.map(({ megabytes }) => megabytes)),
    side: Math.max(...seen.map(({ trial }) => trial.width)),
    isCrowdedLeft: seen.length < settings.length,
  };
}

interface TileMemory {
  /** MB at the most. */
  readonly megabytes: number;
  /** mm of the largest box. */
  readonly side: number;
  /** Whether time was too short for as much in it as can be. */
  readonly isCrowdedLeft: boolean;
}

async function climb(
  bench: Bench,
  now: () => number,
  parameters: Trial['parameters'],
): Promise<Prepared | undefined> {
  let last: Prepared | undefined;
  for (const side of SIDES) {
    if (last && (last.ms * side ** 2) / areaOf(last.trial) > MOST_MS) return last;
    if (last && areaOf(last.trial) >= LEAST_AREA && foretoldOf(last) < MOST_MEGABYTES / FAR_BELOW)
      return last;
    const trial: Trial = { ...HOME, layout: 'straight', width: side, height: side, parameters };
    const prepared = await unlessRefused(() => prepareWatched(bench, now, trial));
    if (!prepared) return last;
    last = prepared;
  }
  return last;
}

async function prepareWatched(bench: Bench, now: () => number, trial: Trial): Promise<Prepared> {
  // What others have left behind is not to be counted, nor collected meanwhile.
  bench.memory!();
  const before = bench.footprint!();
  const started = now();
  await bench.prepare(trial);
  const ms = now() - started;
  const after = bench.footprint!();
  const grown = after.highest > before.highest ? after.highest - before.process : 0;
  return { trial, ms, megabytes: Math.max(grown, after.thread - before.thread) / 2 ** 20 };
}

function requireBounded(prepared: Prepared): void {
  const { trial, megabytes } = prepared;
  const foretold = foretoldOf(prepared);
  const isTile = areaOf(trial) === TILE_MM2;
  if (foretold <= MOST_MEGABYTES * (isTile ? 1 : MOST_FORETOLD)) return;
  const more = isTile ? '' : `, ${Math.round(foretold)} MB in such a tile`;
  throw new Failed(trial, {
    expected: `prepare to take at most ${MOST_MEGABYTES} MB at any time for a tile of 640 x 640 mm, at which a render is stopped`,
    received: `${Math.round(megabytes)} MB for ${trial.width} x ${trial.height} mm${more}, though the model may keep less`,
    remedy:
      'Work along the box, piece by piece, and keep numbers in typed arrays: a list of objects takes ten times the room, also where it is dropped again.',
  });
}

/** MB of a tile of production: what passes grows with the area. */
function foretoldOf({ trial, megabytes }: Prepared): number {
  return (megabytes * TILE_MM2) / areaOf(trial);
}

function areaOf({ width, height }: Trial): number {
  return width * height;
}
