import type { AnyLayer } from '../layer.ts';
import type { Bench, Sample } from './bench.ts';
import { type Channel, channelsOf, deviationOf, meanOf } from './channels.ts';
import { Failed } from './failed.ts';
import { showLayer, sideBySide } from './picture.ts';
import { HOME, type Trial } from './trial.ts';
import { requireSound, trySound } from './try-sound.ts';
import { unlessRefused } from './unless-refused.ts';

/** mm of the long side. Real tiles are 640 mm, and walls larger: what goes wrong beyond any size does so in the largest. */
const LENGTHS = { quick: [100, 930], whole: [100, 210, 520, 930] };
/** mm of the short side: what is worked out for a box grows with its area. The wider one is for effects that refuse the other. */
const NARROW = { quick: [17, 43], whole: [31, 43] };
const BAND = { width: 48, height: 48 };
const PATCHES = 24;
const FRACTION = (Math.sqrt(5) - 1) / 2;
/** The root of x ** 3 = x + 1: the golden ratio of the plane. */
const PLASTIC = 1.3247179572447458;

/** A look is another's where it is further off than chance would have it, and far enough to be seen. */
const MOST_ERRORS = 7;
const LEAST_SEEN = 1 / 255;

type Direction = 'across' | 'down';

/** How a texture looks, whatever the size of its repeat: each of these is one number per patch. */
const LOOKS = {
  'a mean': ({ values }: Channel) => meanOf(values),
  'a contrast': ({ values }: Channel) => deviationOf(values),
  'a step from pixel to pixel': stepOf,
} as const;

type Look = keyof typeof LOOKS;

/** The share that each may be off by. */
const SHARES: Readonly<Record<Look, number>> = {
  'a mean': 0.2,
  'a contrast': 0.2,
  'a step from pixel to pixel': 0.2,
};

/** Numbers of a look, over all patches, by channel. */
type Looks = Readonly<Record<string, Readonly<Record<Look, readonly number[]>>>>;

export interface Patches {
  readonly sample: Sample;
  readonly layers: readonly AnyLayer[];
  readonly looks: Looks;
  /** As many as can lie beside each other: the others say nothing of their own. */
  readonly apart: number;
}

/** What was learnt of large boxes. */
export interface Large {
  /** How many were not refused. */
  readonly tried: number;
  /** Of the smallest, for others to be compared with. */
  readonly small?: Patches;
  /** Of the last and largest. */
  readonly last?: { readonly sample: Sample; readonly ms?: number };
}

/**
 * Tries long, narrow boxes, coarsely and as sketches: that they repeat, and that they look as small ones do.
 *
 * @param tryRepeat Holds a sample to its repeat.
 * @throws Failed
 */
export async function tryLarge(bench: Bench, tryRepeat: (sample: Sample) => void): Promise<Large> {
  const mode = bench.quick ? 'quick' : 'whole';
  let tried = 0;
  let [first, last] = [undefined as Patches | undefined, undefined as Large['last']];
  for (const direction of ['across', 'down'] as const) {
    let small: Patches | undefined;
    for (const length of LENGTHS[mode]) {
      const started = bench.now?.();
      const sample = await prepareOrPass(bench, NARROW[mode].map(longTrial(length, direction)));
      if (!sample) continue;
      last = { sample, ms: started === undefined ? undefined : bench.now!() - started };
      tried++;
      tryRepeat(sample);
      trySound(bench, sample);
      const patches = patchesOf(bench, sample);
      if (small) compare(small, patches);
      small ??= patches;
      first ??= patches;
    }
  }
  return { tried, small: first, last };
}

function longTrial(length: number, direction: Direction): (narrow: number) => Trial {
  return (narrow) => {
    const [width, height] = direction === 'across' ? [length, narrow] : [narrow, length];
    return { ...HOME, layout: 'straight', width, height, pixelsPerMm: 2, quality: 'sketch' };
  };
}

/** Of the first of these that is not refused. */
async function prepareOrPass(bench: Bench, trials: readonly Trial[]): Promise<Sample | undefined> {
  for (const trial of trials) {
    const sample = await unlessRefused(() => bench.prepare(trial));
    if (sample) return sample;
  }
  return undefined;
}

/**
 * Patches strewn evenly over the repeat: whole steps of the golden ratio never meet again.
 *
 * @param aside What is known of the cause where one is not sound, as a whole sentence.
 * @throws Failed
 */
export function patchesOf(bench: Bench, sample: Sample, aside?: string): Patches {
  const { width, height } = sample.grid;
  const layers = Array.from({ length: PATCHES }, (_, k) => {
    const [across, down] = placeOf(k, width / height);
    const view = { ...BAND, x: Math.floor(across * width), y: Math.floor(down * height) };
    const layer = bench.paintAnyhow(sample, view);
    requireSound(sample, layer, view, aside);
    return layer;
  });
  const apart = Math.max(1, Math.min(PATCHES, (width * height) / (BAND.width * BAND.height)));
  return { sample, layers, apart, looks: looksOf(layers) };
}

/** As fractions of the box: along a long one in even steps, which a square one may hold a whole number of cells in. */
function placeOf(k: number, ratio: number): readonly [across: number, down: number] {
  if (ratio === 1) return [(k / PLASTIC) % 1, (k / PLASTIC ** 2) % 1];
  const [along, beside] = [(k + 0.5) / PATCHES, (k * FRACTION) % 1];
  return ratio > 1 ? [along, beside] : [beside, along];
}

function looksOf(patches: readonly AnyLayer[]): Looks {
  const channels = patches.map(channelsOf);
  return Object.fromEntries(
    channels[0].map(({ name }, index) => [
      name,
      Object.fromEntries(
        Object.entries(LOOKS).map(([look, measure]) => [look, channels.map((all) => measure(all[index]))]),
      ),
    ]),
  ) as unknown as Looks;
}

function stepOf({ values, width, height }: Channel): number {
  let sum = 0;
  for (let y = 1; y < height; y++) {
    for (let x = 1; x < width; x++) {
      const here = values[y * width + x];
      sum += Math.abs(here - values[y * width + x - 1]) + Math.abs(here - values[(y - 1) * width + x]);
    }
  }
  return sum / (2 * (width - 1) * (height - 1));
}

/**
 * @param shares The looks to compare, and the share that each may be off by.
 * @throws Failed where the look of a large box is not that of a small one, beyond what its patches vary by.
 */
export function compare(
  small: Patches,
  { sample, layers, looks, apart }: Patches,
  shares: Readonly<Partial<Record<Look, number>>> = SHARES,
): void {
  for (const [channel, measured] of Object.entries(looks)) {
    for (const look of Object.keys(shares) as Look[]) {
      const [few, many] = [small.looks[channel][look], measured[look]];
      const [before, after] = [meanOf(few), meanOf(many)];
      const error = Math.sqrt(deviationOf(few) ** 2 / small.apart + deviationOf(many) ** 2 / apart);
      const distance = Math.abs(after - before);
      const least = Math.max(
        MOST_ERRORS * error,
        shares[look]! * Math.max(Math.abs(before), Math.abs(after)),
      );
      if (distance <= Math.max(least, LEAST_SEEN)) continue;
      throw new Failed(sample.trial, {
        expected: `${look} of ${channel} in a large box as in one of ${longSideOf(small.sample)} mm, ${before.toPrecision(3)}`,
        received: after.toPrecision(3),
        remedy:
          'Keep numbers and sizes per mm: no count, table or limit may stretch or change what a larger box holds.',
        picture: sideBySide(layers.slice(0, 3).map((layer) => showLayer(layer))),
      });
    }
  }
}

function longSideOf({ trial: { width, height } }: Sample): number {
  return Math.max(width, height);
}
