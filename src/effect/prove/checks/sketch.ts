import type { AnyLayer } from '../../layer.ts';
import type { Bench } from '../bench.ts';
import { blockMeans, type Channel, channelsOf, correlationOf, deviationOf } from '../channels.ts';
import { type Check, GROUND } from '../check.ts';
import { tryComposition } from '../composition.ts';
import { Failed } from '../failed.ts';
import { showLayer, sideBySide } from '../picture.ts';
import { gridOfTrial, HOME, type Trial } from '../trial.ts';

const TRIAL: Trial = { ...HOME, width: 60, height: 48, pixelsPerMm: 4 };
/** Pixels to a block: 3 mm, coarse enough for a coarser simulation to agree. */
const BLOCK = 12;
/** Pixels to a block of detail, 0.5 mm, and to one that detail is measured in, 2 mm. */
const FINE = 2;
const COARSE = 8;
/** A sketch with places of its own correlates with the finished texture as another seed does: about 0. */
const LEAST_LIKENESS = 0.5;
/** Detail may be coarser, and correlates less; drawn anew, it does not at all. */
const LEAST_DETAIL = 0.3;
/** ms for a small texture: where it takes longer, a quick proof does not look at a large one. */
const QUICK_MS = 60;
/** A sketch with less than this share of the detail has left it out, which it may. */
const LEFT_OUT = 0.5;

export const sketch: Check = {
  name: 'sketch',
  promise: 'A sketch has the composition of the finished texture.',
  needs: GROUND,
  async run(bench) {
    const started = bench.now?.();
    const finished = await paintAs(bench, TRIAL);
    const ms = started === undefined ? 0 : bench.now!() - started;
    if (!finished.looksAtQuality)
      return { status: 'not applicable', note: 'it does not look at the quality' };
    const sketched = await paintAs(bench, { ...TRIAL, quality: 'sketch' });
    const detail = detailOf(finished.layer, sketched.layer);
    if (detail !== undefined && detail < LEAST_DETAIL) throw redrawn(finished.layer, sketched.layer, detail);
    const likeness = likenessOf(finished.layer, sketched.layer);
    if (likeness !== undefined && likeness < LEAST_LIKENESS)
      throw otherComposition(finished.layer, sketched.layer, likeness);
    const coarse = bench.quick && ms > QUICK_MS ? undefined : await tryComposition(bench);
    if (likeness === undefined && detail === undefined && coarse === undefined) {
      return { status: 'not applicable', note: 'it is flat at its defaults at this scale' };
    }
    const figures = {
      ...(likeness !== undefined && { likeness: Number(likeness.toFixed(2)) }),
      ...(detail !== undefined && { 'likeness of detail': Number(detail.toFixed(2)) }),
      ...(coarse !== undefined && { 'likeness of large patches': Number(coarse.toFixed(2)) }),
    };
    return { status: 'passed', figures };
  },
};

function otherComposition(finished: AnyLayer, sketched: AnyLayer, likeness: number): Failed {
  return new Failed(TRIAL, {
    expected: 'the sketch to have light and dark in the places of the finished texture',
    received: `a correlation of ${likeness.toFixed(2)} over blocks of ${BLOCK / TRIAL.pixelsPerMm} mm (at least ${LEAST_LIKENESS})`,
    remedy:
      'Draw the same random numbers in the same order for both qualities, and change only the size of cells.',
    picture: sideBySide(
      [showLayer(finished), showLayer(sketched)],
      'The finished texture, and beside it the sketch.',
    ),
  });
}

async function paintAs(bench: Bench, trial: Trial): Promise<{ layer: AnyLayer; looksAtQuality: boolean }> {
  const sample = await bench.shared(trial);
  const { width, height } = gridOfTrial(trial);
  const layer = bench.paint(sample, { x: 0, y: 0, width, height });
  return { layer, looksAtQuality: sample.used.has('quality') };
}

/** The correlation of the channel that shows most, relative to what is just seen. */
function likenessOf(finished: AnyLayer, sketched: AnyLayer): number | undefined {
  const others = channelsOf(sketched).map((channel) => blockMeans(channel, BLOCK));
  let [most, likeness] = [1, undefined as number | undefined];
  for (const [index, channel] of channelsOf(finished).entries()) {
    const blocks = blockMeans(channel, BLOCK);
    const shown = deviationOf(blocks.values) / channel.least;
    if (shown < most) continue;
    most = shown;
    likeness = correlationOf(blocks.values, others[index].values);
  }
  return likeness;
}

/** The same of what is finer than 2 mm, where both have enough of it to be seen. */
function detailOf(finished: AnyLayer, sketched: AnyLayer): number | undefined {
  const others = channelsOf(sketched).map(fineDetail);
  let [most, likeness] = [1, undefined as number | undefined];
  for (const [index, channel] of channelsOf(finished).map(fineDetail).entries()) {
    const [own, other] = [deviationOf(channel.values), deviationOf(others[index].values)];
    if (own / channel.least < most || other < LEFT_OUT * own) continue;
    most = own / channel.least;
    likeness = correlationOf(channel.values, others[index].values);
  }
  return likeness;
}

/** The means of fine blocks, less those of the coarse ones that they lie in. */
function fineDetail(channel: Channel): Channel {
  const fine = blockMeans(channel, FINE);
  const coarse = blockMeans(channel, COARSE);
  const ratio = COARSE / FINE;
  const values = fine.values.map((value, k) => {
    const [x, y] = [Math.floor((k % fine.width) / ratio), Math.floor(k / fine.width / ratio)];
    return x < coarse.width && y < coarse.height ? value - coarse.values[y * coarse.width + x] : 0;
  });
  return { ...fine, values };
}

function redrawn(finished: AnyLayer, sketched: AnyLayer, detail: number): Failed {
  return new Failed(TRIAL, {
    expected: 'the detail of the sketch to stand where that of the finished texture does, or to be left out',
    received: `a correlation of ${detail.toFixed(2)} between 0.5 and 2 mm (at least ${LEAST_DETAIL}): it is drawn anew`,
    remedy:
      'Draw the same random numbers in the same order for both qualities: a sketch may be coarser, but shows the same cells.',
    picture: sideBySide([showLayer(finished), showLayer(sketched)]),
  });
}
