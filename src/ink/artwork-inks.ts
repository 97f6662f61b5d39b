import type { Samples } from '../colour/frame.ts';
import type { ShadeCard } from './card.ts';
import { blankMixture, MIXED_INKS, WHOLE } from './mixture.ts';
import { createUnmixer } from './unmix.ts';

/** An ink stands alone where it is all of a pixel but a trace. */
const ALONE = 0.98 * WHOLE;
/** So many pixels side by side are a flat: an edge between two others passes a third colour faster. */
const RUN = 3;
/** In so many places: one may be chance. */
const PLACES = 3;
/** Pixels that are looked at, in whole rows evenly spread. */
const LOOKED_AT = 4e6;

/**
 * The places of a card's inks that an artwork is made of: those that stand alone in it. The soft edge between two
 * of them may look like a third, e.g. like the grey of a texture; all of the card where none stands alone.
 *
 * @param samples Straight RGBA, `width` pixels to a row.
 */
export function artworkInks(card: ShadeCard, samples: Samples, width: number): number[] {
  const height = samples.length / 4 / width;
  const unmixer = createUnmixer(card);
  const mixture = blankMixture(width);
  const places = new Float64Array(card.inks.length);
  const stride = Math.max(1, Math.ceil((width * height) / LOOKED_AT));
  for (let y = 0; y < height; y += stride) {
    unmixer.unmix(samples.subarray(4 * y * width, 4 * (y + 1) * width), mixture);
    let [last, run] = [-1, 0];
    for (let x = 0; x < width; x++) {
      const ink = mixture.amounts[MIXED_INKS * x] >= ALONE ? mixture.inks[MIXED_INKS * x] : -1;
      run = ink === last ? run + 1 : 1;
      last = ink;
      if (ink >= 0 && run === RUN) places[ink]++;
    }
  }
  const all = card.inks.map((_, ink) => ink);
  const alone = all.filter((ink) => places[ink] >= PLACES);
  return alone.length > 0 ? alone : all;
}
