import { atDensity, type Bench, type Sample } from '../bench.ts';
import type { Check } from '../check.ts';
import { dataDifference, differenceOf } from '../compare.ts';
import { copyOfModel, unshared } from '../copy-of-model.ts';
import { Failed } from '../failed.ts';
import { showDifference } from '../picture.ts';
import { writtenInPictures } from '../proof-swatches.ts';
import { overTrials, spread } from '../vary.ts';
import { writtenInto } from '../written-into.ts';

const VIEWS = [
  { x: -20, y: -12, width: 96, height: 72 },
  { x: 150, y: 90, width: 40, height: 30 },
];

/** px/mm: what paint works out when it is first needed may be for fine pixels alone, or for coarse ones. */
const DENSITIES = [47.2, 3, 1.2];
const SMALL_VIEW = { x: -5, y: -3, width: 24, height: 16 };

export const model: Check = {
  name: 'model',
  promise: 'Painting leaves the model as it was: all workers share it.',
  needs: ['runs', 'hidden', 'twice', 'state', 'clone'],
  async run(bench) {
    // Painting once may leave behind what painting again does not change: each is prepared afresh.
    await overTrials(bench, spread(bench), async ({ trial }) => tryModel(bench, await bench.prepare(trial)));
    return { status: 'passed' };
  },
};

function tryModel(bench: Bench, sample: Sample): void {
  const before = unshared(copyOfModel(sample));
  // What prepare wrote is no fault of paint.
  while (writtenInPictures());
  const first = bench.paint(sample, VIEWS[0]);
  bench.paint(sample, VIEWS[1]);
  for (const density of DENSITIES) bench.paint(atDensity(sample, density), SMALL_VIEW);
  const place = writtenInPictures();
  if (place) throw writtenInto(place, sample.trial);
  const path = dataDifference(before, sample.model);
  if (!path) return;
  const after = bench.paint(sample, VIEWS[0]);
  throw new Failed(sample.trial, {
    expected: 'the model to be left as prepare made it',
    received: `a write to ${path} while a band was painted`,
    remedy: 'Work in arrays that paint makes for itself: two workers paint from one model at the same time.',
    picture: differenceOf(first, after) ? showDifference(first, after) : undefined,
  });
}
