import type { AnyLayer } from '../layer.ts';
import type { Bench } from './bench.ts';
import { blockMeans, type Channel, channelsOf, correlationOf, deviationOf } from './channels.ts';
import { Failed } from './failed.ts';
import { showLayer, sideBySide } from './picture.ts';
import { gridOfTrial, HOME, type Trial } from './trial.ts';
import { unlessRefused } from './unless-refused.ts';

/** Large enough for patches as wide as a hand to be told from others. */
const TRIAL: Trial = { ...HOME, width: 128, height: 96, pixelsPerMm: 2 };
/** Pixels to a block: 8 mm. */
const BLOCK = 16;
/**
 * Sketches that leave out detail, or work on a coarser grid, correlate with the finished texture by 0.98 and more at
 * this scale, and a reaction that ends elsewhere by 0.87. One layer of two that is drawn anew comes to 0.55 and less.
 */
const LEAST_LIKENESS = 0.7;
/** Of a channel's contrast: a texture of fine things alone has its composition there, which others look at. */
const LEAST_SHARE = 0.3;

/**
 * Compares what is coarse in a finished texture with its sketch: there a layer that was drawn anew does not hide
 * behind another that was not.
 *
 * @returns The correlation, or nothing where nothing so coarse shows.
 * @throws Failed
 */
export async function tryComposition(bench: Bench): Promise<number | undefined> {
  const [finished, sketched] = [await paintAs(bench, 'finished'), await paintAs(bench, 'sketch')];
  if (!finished || !sketched) return undefined;
  const others = channelsOf(sketched);
  let least: { likeness: number; name: string } | undefined;
  for (const [index, channel] of channelsOf(finished).entries()) {
    const likeness = coarseLikeness(channel, others[index]);
    if (likeness === undefined || (least && least.likeness <= likeness)) continue;
    least = { likeness, name: channel.name };
  }
  if (!least || least.likeness >= LEAST_LIKENESS) return least?.likeness;
  throw new Failed(TRIAL, {
    expected: 'the sketch to have its large patches where the finished texture does',
    received: `a correlation of ${least.likeness.toFixed(2)} of ${least.name} over blocks of ${BLOCK / TRIAL.pixelsPerMm} mm (at least ${LEAST_LIKENESS}): part of it is drawn anew`,
    remedy:
      'Draw the same random numbers in the same order for both qualities: give every layer a stream of its own (random("patches")), so that one which draws less leaves the others theirs.',
    picture: sideBySide(
      [showLayer(finished), showLayer(sketched)],
      'The finished texture, and beside it the sketch.',
    ),
  });
}

/** Nothing where the effect refuses so large a box. */
async function paintAs(bench: Bench, quality: Trial['quality']): Promise<AnyLayer | undefined> {
  const trial = { ...TRIAL, quality };
  const { width, height } = gridOfTrial(trial);
  return unlessRefused(async () => bench.paint(await bench.prepare(trial), { x: 0, y: 0, width, height }));
}

function coarseLikeness(finished: Channel, sketched: Channel): number | undefined {
  const [own, other] = [blockMeans(finished, BLOCK), blockMeans(sketched, BLOCK)];
  const shown = deviationOf(own.values);
  if (shown < Math.max(finished.least, LEAST_SHARE * deviationOf(finished.values))) return undefined;
  return correlationOf(own.values, other.values);
}
