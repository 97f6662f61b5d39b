import type { Samples } from '../colour/frame.ts';
import { linearTable, sampleOfLinear } from '../colour/samples.ts';
import type { ShadeCard } from './card.ts';
import type { Colourway } from './colourway.ts';
import { linearColours, linearInks } from './linear-inks.ts';
import { blankMixture, MIXED_INKS, WHOLE } from './mixture.ts';
import { createUnmixer, type Unmixer } from './unmix.ts';

/*
 * A pixel is its mix of the card's inks and a rest that the card does not explain: pixel = mix + rest, in linear
 * light. In a colourway it is the mix of the new colours, and the rest by as much as the light of the mix has changed:
 *
 *   new pixel = new mix + rest * (new mix + FLOOR) / (mix + FLOOR), that factor at most MOST_GAIN
 *
 * for each of red, green and blue. The grain of a painting so stays as strong to the eye on a dark ink as it was on a
 * light one. With the card's own colours the factor is 1 and the sum is the pixel again.
 */

/** Linear light. Below it a rest is carried as a difference, above it as a ratio. */
const FLOOR = 0.02;
/** A rest grows no more than this: on black inks it is mostly the noise of a scan. */
const MOST_GAIN = 2;

/** Gives pixels the colours of a colourway. */
export interface Recolourer {
  /**
   * Recolours the pixels of a run where they lie; alpha stays, and the colour of a pixel that is wholly transparent.
   * A pixel depends on its own colour alone, so that a run may be any part of a picture.
   *
   * @param samples Straight RGBA in encoded sRGB, of the kind that the recolourer was made for.
   */
  recolour(samples: Samples): void;
}

/**
 * Prepares the recolouring of one picture. Every colour is worked out once and kept: 64 MB for 8 bit, 2 MB for 16,
 * where only the last ones are kept.
 *
 * @param kind     The samples that are to come, 8 or 16 bit.
 * @param unmixer  Of this card, where there is one already.
 * @throws Fault (usage) for a card without inks, or with too many.
 */
export function createRecolourer(
  card: ShadeCard,
  colourway: Colourway,
  kind: Pick<Samples, 'BYTES_PER_ELEMENT'>,
  unmixer: Unmixer = createUnmixer(card),
): Recolourer {
  const change = pixelChange(card, colourway, kind, unmixer);
  return kind.BYTES_PER_ELEMENT === 1 ? byteRecolourer(change) : shortRecolourer(change);
}

/** Puts the new colour of a colour into `to`. */
type PixelChange = (red: number, green: number, blue: number, to: Samples) => void;

function pixelChange(
  card: ShadeCard,
  { colours }: Colourway,
  kind: Pick<Samples, 'BYTES_PER_ELEMENT'>,
  unmixer: Unmixer,
): PixelChange {
  const own = linearInks(card);
  const other = linearColours(colours);
  const [light, sample] = [linearTable(kind), sampleOfLinear(kind)];
  const pixel: Samples = kind.BYTES_PER_ELEMENT === 1 ? new Uint8Array(4) : new Uint16Array(4);
  const mixture = blankMixture(1);
  return (red, green, blue, to) => {
    pixel[0] = red;
    pixel[1] = green;
    pixel[2] = blue;
    // The largest sample of the kind: an opaque pixel, whatever its own cover.
    pixel[3] = -1;
    unmixer.unmix(pixel, mixture);
    for (let channel = 0; channel < 3; channel++) {
      let [mix, newMix] = [0, 0];
      for (let part = 0; part < MIXED_INKS; part++) {
        const at = 3 * mixture.inks[part] + channel;
        const amount = mixture.amounts[part] / WHOLE;
        mix += amount * own[at];
        newMix += amount * other[at];
      }
      const rest = light[pixel[channel]] - mix;
      const gain = Math.min(MOST_GAIN, (newMix + FLOOR) / (mix + FLOOR));
      to[channel] = sample(newMix + rest * gain);
    }
  };
}

const SET = 1 << 24;

function byteRecolourer(change: PixelChange): Recolourer {
  const known = new Uint32Array(1 << 24);
  const found = new Uint8Array(3);
  return {
    recolour(samples) {
      for (let at = 0; at < samples.length; at += 4) {
        if (samples[at + 3] === 0) continue;
        const colour = (samples[at] << 16) | (samples[at + 1] << 8) | samples[at + 2];
        let answer = known[colour];
        if (answer === 0) {
          change(samples[at], samples[at + 1], samples[at + 2], found);
          answer = SET | (found[0] << 16) | (found[1] << 8) | found[2];
          known[colour] = answer;
        }
        samples[at] = (answer >> 16) & 255;
        samples[at + 1] = (answer >> 8) & 255;
        samples[at + 2] = answer & 255;
      }
    },
  };
}

const KEPT_BITS = 17;

function shortRecolourer(change: PixelChange): Recolourer {
  const asked = new Uint16Array(3 << KEPT_BITS);
  const isSet = new Uint8Array(1 << KEPT_BITS);
  const answers = new Uint16Array(3 << KEPT_BITS);
  const found = new Uint16Array(3);
  return {
    recolour(samples) {
      for (let at = 0; at < samples.length; at += 4) {
        if (samples[at + 3] === 0) continue;
        const [red, green, blue] = [samples[at], samples[at + 1], samples[at + 2]];
        const mixed = Math.imul(red, 0x9e3779b1) ^ Math.imul(green, 0x85ebca6b) ^ Math.imul(blue, 0xc2b2ae35);
        const place = Math.imul(mixed ^ (mixed >>> 15), 0x2c1b3c6d) >>> (32 - KEPT_BITS);
        const kept = 3 * place;
        const isKept =
          isSet[place] === 1 && asked[kept] === red && asked[kept + 1] === green && asked[kept + 2] === blue;
        if (!isKept) {
          change(red, green, blue, found);
          isSet[place] = 1;
          asked[kept] = red;
          asked[kept + 1] = green;
          asked[kept + 2] = blue;
          answers.set(found, kept);
        }
        samples[at] = answers[kept];
        samples[at + 1] = answers[kept + 1];
        samples[at + 2] = answers[kept + 2];
      }
    },
  };
}
