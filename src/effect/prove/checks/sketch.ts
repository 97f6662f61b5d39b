import type { AnyLayer } from '../../layer.ts';
import type { Bench } from '../bench.ts';
import { blockMeans, channelsOf, correlationOf, deviationOf } from '../channels.ts';
import { type Check, GROUND } from '../check.ts';
import { Failed } from '../failed.ts';
import { showLayer, sideBySide } from '../picture.ts';
import { gridOfTrial, HOME, type Trial } from '../trial.ts';

const TRIAL: Trial = { ...HOME, width: 60, height: 48, pixelsPerMm: 2 };
/** Pixels to a block: 3 mm, coarse enough for a coarser simulation to agree. */
const BLOCK = 6;
/** A sketch with places of its own correlates with the finished texture as another seed does: about 0. */
const LEAST_LIKENESS = 0.5;

export const sketch: Check = {
  name: 'sketch',
  promise: 'A sketch has the composition of the finished texture.',
  needs: GROUND,
  async run(bench) {
    const finished = await paintAs(bench, TRIAL);
    if (!finished.looksAtQuality)
      return { status: 'not applicable', note: 'it does not look at the quality' };
    const sketched = await paintAs(bench, { ...TRIAL, quality: 'sketch' });
    const likeness = likenessOf(finished.layer, sketched.layer);
    if (likeness === undefined) {
      return { status: 'not applicable', note: 'it is flat at its defaults at this scale' };
    }
    if (likeness >= LEAST_LIKENESS)
      return { status: 'passed', figures: { likeness: Number(likeness.toFixed(2)) } };
    throw new Failed(TRIAL, {
      expected: 'the sketch to have light and dark in the places of the finished texture',
      received: `a correlation of ${likeness.toFixed(2)} over blocks of ${BLOCK / TRIAL.pixelsPerMm} mm (at least ${LEAST_LIKENESS})`,
      remedy:
        'Draw the same random numbers in the same order for both qualities, and change only the size of cells.',
      picture: sideBySide(
        [showLayer(finished.layer), showLayer(sketched.layer)],
        'The finished texture, and beside it the sketch.',
      ),
    });
  },
};

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
