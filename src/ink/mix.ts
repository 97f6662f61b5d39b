import type { Samples } from '../colour/frame.ts';
import { fullSample, sampleOfLinear } from '../colour/samples.ts';
import { MIXED_INKS, type Mixture, WHOLE } from './mixture.ts';

/**
 * The pixels of a mixture again, of any colours for the inks: linear light added up by amounts, opaque.
 *
 * @param linear Three numbers per ink of the card, 0..1, as `linearInks` gives them.
 * @param out Straight RGBA in encoded sRGB, 8 or 16 bit, as many pixels as the mixture has.
 */
export function mixInto({ inks, amounts }: Mixture, linear: Float32Array, out: Samples): void {
  const sample = sampleOfLinear(out);
  const full = fullSample(out);
  for (let at = 0, to = 0; at < inks.length; at += MIXED_INKS, to += 4) {
    const [first, second, third] = [3 * inks[at], 3 * inks[at + 1], 3 * inks[at + 2]];
    const [a, b, c] = [amounts[at] / WHOLE, amounts[at + 1] / WHOLE, amounts[at + 2] / WHOLE];
    for (let channel = 0; channel < 3; channel++) {
      out[to + channel] = sample(
        a * linear[first + channel] + b * linear[second + channel] + c * linear[third + channel],
      );
    }
    out[to + 3] = full;
  }
}
