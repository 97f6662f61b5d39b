import type { Samples } from '../colour/frame.ts';
import { fullSample } from '../colour/samples.ts';
import { Fault } from '../fault.ts';
import { groundColour, type ShadeCard } from './card.ts';
import { LEVELS } from './eye-metric.ts';
import { createLikelyThrees } from './likely-threes.ts';
import { MIXED_INKS, type Mixture, WHOLE } from './mixture.ts';
import { createColourUnmixer } from './unmix-colour.ts';

/** Tells pixels apart into inks. */
export interface Unmixer {
  /**
   * Of each pixel the mix of at most three inks that is nearest to it. A pixel depends on its own colour alone, so
   * a run may be any part of a picture, in any order.
   *
   * @param samples Straight RGBA in encoded sRGB, 8 or 16 bit. What is translucent is laid over the ground, white
   *   where the card has none.
   * @param into As many pixels as the samples are.
   */
  unmix(samples: Samples, into: Mixture): void;
}

/** So many inks a card may have: more than are printed, and all threes of them can still be tried. */
export const MOST_INKS = 24;

const KEY_BITS = 10;
/** Answers kept by colour: about 7 MB. A place holds the last colour that came to it, its very answer. */
const KEPT_BITS = 19;

/**
 * Prepares the unmixing by a card; by what rule stands in unmix-colour.ts. It keeps some 14 MB: make one per thread,
 * not one per band.
 *
 * @throws Fault (usage) for a card without inks, or with more than 24.
 */
export function createUnmixer(card: ShadeCard): Unmixer {
  requireCount(card);
  const colours = Float64Array.from(card.inks.flatMap(({ colour }) => colour.map((byte) => byte / 255)));
  const unmixer = createColourUnmixer(colours);
  const likely = createLikelyThrees(unmixer, colours);
  const paper = groundColour(card);
  const keys = new Int32Array(1 << KEPT_BITS).fill(-1);
  const keptInks = new Uint8Array(MIXED_INKS << KEPT_BITS);
  const keptAmounts = new Uint16Array(MIXED_INKS << KEPT_BITS);

  /** The place where the answer for a colour is kept, made where it is not there. */
  const placeOf = (red: number, green: number, blue: number): number => {
    const key = (red << (2 * KEY_BITS)) | (green << KEY_BITS) | blue;
    const place = Math.imul(key, 0x9e3779b1) >>> (32 - KEPT_BITS);
    if (keys[place] !== key) {
      likely.find(red, green, blue);
      unmixer.aim(red, green, blue);
      unmixer.tell(unmixer.choose(likely.list, likely.at, likely.count));
      settle(unmixer, keptInks, keptAmounts, MIXED_INKS * place);
      keys[place] = key;
    }
    return MIXED_INKS * place;
  };

  return {
    unmix(samples, { inks, amounts }) {
      const full = fullSample(samples);
      const scale = LEVELS / full;
      let last = -1;
      let kept = 0;
      for (let from = 0, to = 0; from < samples.length; from += 4, to += MIXED_INKS) {
        let red = samples[from] * scale;
        let green = samples[from + 1] * scale;
        let blue = samples[from + 2] * scale;
        const cover = samples[from + 3];
        if (cover !== full) {
          const over = cover / full;
          const under = (4 * (full - cover)) / full;
          red = red * over + paper[0] * under;
          green = green * over + paper[1] * under;
          blue = blue * over + paper[2] * under;
        }
        const r = (red + 0.5) | 0;
        const g = (green + 0.5) | 0;
        const b = (blue + 0.5) | 0;
        const key = (r << (2 * KEY_BITS)) | (g << KEY_BITS) | b;
        if (key !== last) [last, kept] = [key, placeOf(r, g, b)];
        inks[to] = keptInks[kept];
        inks[to + 1] = keptInks[kept + 1];
        inks[to + 2] = keptInks[kept + 2];
        amounts[to] = keptAmounts[kept];
        amounts[to + 1] = keptAmounts[kept + 1];
        amounts[to + 2] = keptAmounts[kept + 2];
      }
    },
  };
}

/** Writes a mix as a mixture has it: whole numbers that add up, the greatest first, its first ink for nothing of any. */
function settle(
  mix: { readonly inks: Int32Array; readonly amounts: Float64Array },
  inks: Uint8Array,
  amounts: Uint16Array,
  at: number,
): void {
  let i = mix.inks[0];
  let j = mix.inks[1];
  let k = mix.inks[2];
  let a = mix.amounts[0];
  let b = mix.amounts[1];
  let c = mix.amounts[2];
  // Of a card with fewer than three inks one stands twice: it counts at its first place.
  if (k === j) [b, c] = [b + c, 0];
  if (j === i) [a, b] = [a + b, 0];
  if (b > a) [i, j, a, b] = [j, i, b, a];
  if (c > b) [j, k, b, c] = [k, j, c, b];
  if (b > a) [i, j, a, b] = [j, i, b, a];
  // Rounded down, so that the first stays the greatest.
  const second = (b * WHOLE) | 0;
  const third = (c * WHOLE) | 0;
  inks[at] = i;
  inks[at + 1] = second > 0 ? j : i;
  inks[at + 2] = third > 0 ? k : i;
  amounts[at] = WHOLE - second - third;
  amounts[at + 1] = second;
  amounts[at + 2] = third;
}

function requireCount({ name, inks }: ShadeCard): void {
  if (inks.length >= 1 && inks.length <= MOST_INKS) return;
  throw new Fault({
    kind: 'usage',
    expected: `1 to ${MOST_INKS} inks`,
    subject: `the shade card "${name}"`,
    received: inks.length === 0 ? 'none' : `${inks.length}`,
    remedy: inks.length === 0 ? 'Give it a ground or an ink.' : 'Merge those that are nearest to each other.',
  });
}
