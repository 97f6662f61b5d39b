import type { AnyLayer } from '../layer.ts';
import type { Bench, Sample } from './bench.ts';
import { blockMeans, type Channel, channelsOf, correlationOf, deviationOf } from './channels.ts';
import { Failed } from './failed.ts';
import { showLayer, sideBySide } from './picture.ts';
import { toneFault } from './sketch-tone.ts';
import { gridOfTrial, type Trial } from './trial.ts';

/** Of the trials that are compared. */
export const PIXELS_PER_MM = 4;
/** Pixels to a block: 3 mm, coarse enough for a coarser simulation to agree. */
const BLOCK = 12;
/** Pixels to a block of detail, 0.5 mm, and to one that detail is measured in, 2 mm. */
const FINE = 2;
const COARSE = 8;
/** A sketch with places of its own correlates with the finished texture as another seed does: about 0. */
const LEAST_LIKENESS = 0.5;
/** Detail may be coarser, and correlates less; drawn anew, it does not at all. */
const LEAST_DETAIL = 0.3;
/** A sketch with less than this share of the detail has left it out, which it may. */
const LEFT_OUT = 0.5;

/** Correlations of a sketch with the finished texture; none where nothing shows at that scale. */
export interface SketchLikeness {
  readonly likeness?: number;
  readonly detail?: number;
}

/**
 * Compares a finished texture with its sketch, in blocks and in detail.
 *
 * @param finished Prepared at `PIXELS_PER_MM`.
 * @param heldTo All, or detail only where no composition shows: of broad shapes all that is fine is their outline, which a
 *   coarser simulation may draw a mm off.
 * @throws Failed where the sketch is of another composition or tone; Refused where the effect refuses it.
 */
export async function compareWithSketch(
  bench: Bench,
  finished: Sample,
  heldTo: 'all' | 'composition' = 'all',
): Promise<SketchLikeness> {
  const { trial } = finished;
  const own = paintWhole(bench, finished);
  const other = paintWhole(bench, await bench.shared({ ...trial, quality: 'sketch' }));
  const [likeness, detail] = [likenessOf(own, other), detailOf(own, other)];
  const isHeldToDetail = heldTo === 'all' || likeness === undefined;
  if (isHeldToDetail && detail !== undefined && detail < LEAST_DETAIL)
    throw redrawn(trial, own, other, detail);
  if (likeness !== undefined && likeness < LEAST_LIKENESS)
    throw otherComposition(trial, own, other, likeness);
  const fault = toneFault(own, other, BLOCK);
  if (fault) throw otherTone(trial, own, other, fault);
  return { likeness, detail };
}

function paintWhole(bench: Bench, sample: Sample): AnyLayer {
  const { width, height } = gridOfTrial(sample.trial);
  return bench.paint(sample, { x: 0, y: 0, width, height });
}

function otherComposition(trial: Trial, finished: AnyLayer, sketched: AnyLayer, likeness: number): Failed {
  return new Failed(trial, {
    expected: 'the sketch to have light and dark in the places of the finished texture',
    received: `a correlation of ${likeness.toFixed(2)} over blocks of ${BLOCK / PIXELS_PER_MM} mm (at least ${LEAST_LIKENESS})`,
    remedy:
      'Draw the same random numbers in the same order for both qualities, and change only the size of cells.',
    picture: sideBySide(
      [showLayer(finished), showLayer(sketched)],
      'The finished texture, and beside it the sketch.',
    ),
  });
}

function otherTone(trial: Trial, finished: AnyLayer, sketched: AnyLayer, fault: string): Failed {
  return new Failed(trial, {
    expected: 'the sketch to be as light and as strong as the finished texture',
    received: fault,
    remedy:
      'Let a sketch have as many things as the finished texture, each as dark and as large: it may only work on a coarser grid and leave out detail. What spreads or grows in steps goes so far per cell and not per mm: on cells twice as wide diffusion takes a quarter of the steps, or of the rate.',
    picture: sideBySide(
      [showLayer(finished), showLayer(sketched)],
      'The finished texture, and beside it the sketch.',
    ),
  });
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

function redrawn(trial: Trial, finished: AnyLayer, sketched: AnyLayer, detail: number): Failed {
  return new Failed(trial, {
    expected: 'the detail of the sketch to stand where that of the finished texture does, or to be left out',
    received: `a correlation of ${detail.toFixed(2)} between 0.5 and 2 mm (at least ${LEAST_DETAIL}): it is drawn anew`,
    remedy:
      'Draw the same random numbers in the same order for both qualities: a sketch may be coarser, but shows the same cells.',
    picture: sideBySide([showLayer(finished), showLayer(sketched)]),
  });
}
