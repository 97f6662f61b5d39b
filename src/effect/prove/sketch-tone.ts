import type { AnyLayer } from '../layer.ts';
import { blockMeans, deviationOf, meanOf } from './channels.ts';
import { laidChannelsOf, neutralOf } from './laid-channels.ts';

/**
 * The mean may move by this share of what the texture does to the artwork, its mean distance from neutral. The effects
 * that come with the host, with their presets and extremes, come to 0.09 at most; one coat of dots out of three to 0.65.
 */
const MOST_DRIFT = 0.25;
/** Steps that can be seen: less of a shift is none. */
const LEAST_SHIFT = 1;
/** The contrast over blocks may be this many times that of the other; those same effects come to 0.90 to 1.06. */
const MOST_CONTRAST = 1.5;

/**
 * In what a sketch is lighter, darker, stronger or fainter than the finished texture, in words; nothing where it is not.
 *
 * @param block Pixels to a block: finer contrast a sketch may leave out.
 */
export function toneFault(finished: AnyLayer, sketched: AnyLayer, block: number): string | undefined {
  const others = laidChannelsOf(sketched);
  for (const [index, own] of laidChannelsOf(finished).entries()) {
    const means = [own, others[index]].map(({ values }) => meanOf(values));
    const neutral = neutralOf(own);
    const does = meanOf(own.values.map((value) => Math.abs(value - neutral)));
    const shift = Math.abs(means[1] - means[0]);
    const what = own.name === 'load' ? 'the light of load' : own.name;
    if (shift > Math.max(LEAST_SHIFT * own.least, MOST_DRIFT * does))
      return `a mean of ${what} of ${show(means[1])} after ${show(means[0])}, which is off by ${Math.round((100 * shift) / does)} % of what it does to the artwork (at most ${100 * MOST_DRIFT} %)`;
    const contrasts = [own, others[index]].map((channel) => deviationOf(blockMeans(channel, block).values));
    const [least, most] = [...contrasts].sort((a, b) => a - b);
    if (most - least > own.least / 2 && most > MOST_CONTRAST * least)
      return `a contrast of ${what} of ${show(contrasts[1])} after ${show(contrasts[0])} (at most ${MOST_CONTRAST} times more or less)`;
  }
  return undefined;
}

function show(value: number): string {
  return value.toFixed(3);
}
