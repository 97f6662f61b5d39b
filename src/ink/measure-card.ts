import { colourDifference, type Lab, labOfLinear } from '../colour/index.ts';
import type { ShadeCard } from './card.ts';
import { linearInks } from './linear-inks.ts';
import { blankMixture, MIXED_INKS, WHOLE } from './mixture.ts';
import { labOfColour } from './plain-peaks.ts';
import { createUnmixer } from './unmix.ts';

/** Colours with the weight of each. */
export interface Weighed {
  /** 0xrrggbb */
  readonly colours: Uint32Array;
  readonly counts: Uint32Array;
}

/** How far mixes of a card's inks are from what was unmixed, CIEDE2000. */
export interface CardError {
  readonly mean: number;
  /** 95 of 100 pixels are off by no more. */
  readonly p95: number;
  readonly worst: number;
}

export interface CardMeasure {
  /** Of each ink in the order of the card, the part of the area, 0..1. */
  readonly areas: readonly number[];
  readonly error: CardError;
  /** Of each colour, CIEDE2000. */
  readonly errors: Float32Array;
}

/** Colours told at a time. */
const RUN = 4096;

/** What a card makes of a picture's colours: the area of each ink, and how far off the mixes are. */
export function measureCard(card: ShadeCard, { colours, counts }: Weighed): CardMeasure {
  const unmixer = createUnmixer(card);
  const linear = linearInks(card);
  const samples = new Uint8Array(4 * RUN).fill(255);
  const mixture = blankMixture(RUN);
  const sums = new Float64Array(card.inks.length);
  const errors = new Float32Array(colours.length);
  let all = 0;
  for (let start = 0; start < colours.length; start += RUN) {
    const length = Math.min(RUN, colours.length - start);
    for (let at = 0; at < length; at++) {
      samples[4 * at] = colours[start + at] >> 16;
      samples[4 * at + 1] = (colours[start + at] >> 8) & 255;
      samples[4 * at + 2] = colours[start + at] & 255;
    }
    unmixer.unmix(samples.subarray(0, 4 * length), {
      inks: mixture.inks.subarray(0, MIXED_INKS * length),
      amounts: mixture.amounts.subarray(0, MIXED_INKS * length),
    });
    for (let at = 0; at < length; at++) {
      const count = counts[start + at];
      all += count;
      for (let part = MIXED_INKS * at; part < MIXED_INKS * (at + 1); part++)
        sums[mixture.inks[part]] += count * (mixture.amounts[part] / WHOLE);
      errors[start + at] = colourDifference(
        labOfColour(colours[start + at]),
        labOfMix(mixture, linear, MIXED_INKS * at),
      );
    }
  }
  return {
    areas: Array.from(sums, (sum) => (all > 0 ? sum / all : 0)),
    error: errorOf(errors, counts, all),
    errors,
  };
}

function labOfMix(
  { inks, amounts }: { readonly inks: Uint8Array; readonly amounts: Uint16Array },
  linear: Float32Array,
  at: number,
): Lab {
  const light = [0, 0, 0];
  for (let part = at; part < at + MIXED_INKS; part++)
    for (let channel = 0; channel < 3; channel++)
      light[channel] += (amounts[part] / WHOLE) * linear[3 * inks[part] + channel];
  return labOfLinear(light[0], light[1], light[2]);
}

/** Steps of CIEDE2000 in which the 95th of a hundred is told. */
const STEP = 0.01;

function errorOf(errors: Float32Array, counts: Uint32Array, all: number): CardError {
  const steps = new Float64Array(20_001);
  let sum = 0;
  let worst = 0;
  errors.forEach((error, at) => {
    sum += error * counts[at];
    worst = Math.max(worst, error);
    steps[Math.min(20_000, Math.ceil(error / STEP))] += counts[at];
  });
  let [below, step] = [steps[0], 0];
  while (below < 0.95 * all) below += steps[++step];
  return { mean: all > 0 ? sum / all : 0, p95: step * STEP, worst };
}
