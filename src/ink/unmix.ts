import type { Samples } from '../colour/frame.ts';
import { fullSample } from '../colour/samples.ts';
import { Fault } from '../fault.ts';
import type { ShadeCard } from './card.ts';
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

/** Colours are told apart in steps of a quarter byte: a tenth of what is just seen. */
const STEPS = 1020;
const KEY_BITS = 10;
/** Answers kept by colour: about 7 MB. A place holds the last colour that came to it, its very answer. */
const KEPT_BITS = 19;

/**
 * Prepares the unmixing by a card; by what rule stands in unmix-colour.ts. It keeps some 7 MB: make one per thread,
 * not one per band.
 *
 * @throws Fault (usage) for a card without inks, or with more than 24.
 */
export function createUnmixer(card: ShadeCard): Unmixer {
  requireCount(card);
  const colours = Float64Array.from(card.inks.flatMap(({ colour }) => colour.map((byte) => byte / 255)));
  const mix = { inks: new Int32Array(MIXED_INKS), amounts: new Float64Array(MIXED_INKS) };
  const unmixColour = createColourUnmixer(colours, mix);
  const paper = card.inks.find(({ kind }) => kind === 'ground')?.colour ?? [255, 255, 255];
  const keys = new Int32Array(1 << KEPT_BITS).fill(-1);
  const keptInks = new Uint8Array(MIXED_INKS << KEPT_BITS);
  const keptAmounts = new Uint16Array(MIXED_INKS << KEPT_BITS);

  /** The place where the answer for a colour is kept, made where it is not there. */
  const placeOf = (red: number, green: number, blue: number): number => {
    const key = (red << (2 * KEY_BITS)) | (green << KEY_BITS) | blue;
    const place = Math.imul(key, 0x9e3779b1) >>> (32 - KEPT_BITS);
    if (keys[place] !== key) {
      unmixColour(red / STEPS, green / STEPS, blue / STEPS);
      settle(mix, keptInks, keptAmounts, MIXED_INKS * place);
      keys[place] = key;
    }
    return MIXED_INKS * place;
  };

  return {
    unmix(samples, { inks, amounts }) {
      const full = fullSample(samples);
      const scale = STEPS / full;
      let [last, kept] = [-1, 0];
      for (let from = 0, to = 0; from < samples.length; from += 4, to += MIXED_INKS) {
        let [red, green, blue] = [
          samples[from] * scale,
          samples[from + 1] * scale,
          samples[from + 2] * scale,
        ];
        const cover = samples[from + 3];
        if (cover !== full) {
          const [over, under] = [cover / full, (4 * (full - cover)) / full];
          red = red * over + paper[0] * under;
          green = green * over + paper[1] * under;
          blue = blue * over + paper[2] * under;
        }
        const [r, g, b] = [(red + 0.5) | 0, (green + 0.5) | 0, (blue + 0.5) | 0];
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

/** Writes a mix as a mixture has it: whole numbers that add up, the greatest first, of no ink its first for nothing. */
function settle(
  mix: { readonly inks: Int32Array; readonly amounts: Float64Array },
  inks: Uint8Array,
  amounts: Uint16Array,
  at: number,
): void {
  const parts = Array.from(mix.inks, (ink, index) => ({
    ink,
    // One ink that stands twice in a three, of a card with fewer, counts at its first place.
    amount: mix.inks.indexOf(ink) === index ? sumOf(mix, ink) : 0,
  })).sort((a, b) => b.amount - a.amount || a.ink - b.ink);
  const second = Math.round(parts[1].amount * WHOLE);
  const third = Math.round(parts[2].amount * WHOLE);
  [WHOLE - second - third, second, third].forEach((amount, index) => {
    inks[at + index] = amount > 0 ? parts[index].ink : parts[0].ink;
    amounts[at + index] = amount;
  });
}

function sumOf(mix: { readonly inks: Int32Array; readonly amounts: Float64Array }, ink: number): number {
  return mix.amounts.reduce((sum, amount, index) => (mix.inks[index] === ink ? sum + amount : sum), 0);
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
