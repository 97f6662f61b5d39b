import { readsArtwork } from '../artwork.ts';
import { HINTS } from '../hints.ts';
import type { Bench } from './bench.ts';
import { openBudget } from './budget.ts';
import { channelsOf } from './channels.ts';
import { Failed } from './failed.ts';
import { showDifference } from './picture.ts';
import { DOT_PLACES, type DotPlace } from './proof-artwork.ts';
import { HOME, type Trial } from './trial.ts';
import { unlessRefused } from './unless-refused.ts';

const BOX: Trial = {
  ...HOME,
  layout: 'straight',
  width: 64,
  height: 56,
  pixelsPerMm: 2,
  quality: 'sketch',
};
const SEEDS = ['prove', 'a', 'b'];
const SECONDS = { quick: 0.3, whole: 4 };
const MIDDLE: DotPlace = 'one dot in the middle';
/** Of what a dot does in the middle: what has less beside an edge in every seed is cut off there. */
const LEAST_SHARE = 0.75;
/** Of what is just seen, in the mean of the box: a dot that does less does nothing. */
const LEAST = 0.02;

/**
 * Holds what a motif of the artwork does beside an edge of the box to what it does in the middle: whatever spreads from
 * it goes on over the edge.
 *
 * @throws Failed
 */
export async function tryArtworkEdges(bench: Bench): Promise<void> {
  if (!readsArtwork(bench.effect)) return;
  const budget = openBudget(bench, SECONDS);
  const middles: number[] = [];
  for (const seed of SEEDS) middles.push(await doneBy(bench, seed, MIDDLE));
  for (const place of Object.keys(DOT_PLACES) as DotPlace[]) {
    if (place === MIDDLE || budget.isOver()) continue;
    const shares: number[] = [];
    for (const [k, seed] of SEEDS.entries()) shares.push((await doneBy(bench, seed, place)) / middles[k]);
    if (!middles.every((done) => done > LEAST) || !shares.every((share) => share < LEAST_SHARE)) continue;
    throw await cutOff(bench, place, Math.max(...shares));
  }
}

/** How much a dot changes, in steps that are just seen and in the mean of the box; 0 where it is refused. */
async function doneBy(bench: Bench, seed: string, artwork: DotPlace): Promise<number> {
  const [bare, dotted] = [await paintOver(bench, seed), await paintOver(bench, seed, artwork)];
  if (!bare || !dotted) return 0;
  const others = channelsOf(dotted);
  const changes = channelsOf(bare).map(
    ({ values, least }, index) =>
      values.reduce((sum, value, k) => sum + Math.abs(value - others[index].values[k]), 0) /
      values.length /
      least,
  );
  return Math.max(...changes);
}

async function paintOver(bench: Bench, seed: string, artwork?: DotPlace) {
  const trial: Trial = { ...BOX, seed, artwork: artwork ?? 'plain' };
  const sample = await unlessRefused(() => bench.shared(trial));
  return sample && bench.paint(sample, { x: 0, y: 0, width: sample.grid.width, height: sample.grid.height });
}

async function cutOff(bench: Bench, place: DotPlace, share: number): Promise<Failed> {
  const [middle, beside] = [
    await paintOver(bench, SEEDS[0], MIDDLE),
    await paintOver(bench, SEEDS[0], place),
  ];
  return new Failed(
    { ...BOX, artwork: place },
    {
      expected: `${place} to do as much as one in the middle of the artwork, on both sides of the edge`,
      received: `${Math.round(100 * share)} % of it at the most, from ${SEEDS.length} seeds`,
      remedy: HINTS.cutFromArtwork,
      picture: middle && beside && showDifference(middle, beside),
    },
  );
}
