import type { AnyLayer } from '../layer.ts';
import type { Bench, Sample } from './bench.ts';
import { type Channel, channelsOf, deviationOf, meanOf } from './channels.ts';
import { Failed, Refused } from './failed.ts';
import { showLayer, sideBySide } from './picture.ts';
import { HOME, type Trial } from './trial.ts';
import { trySound } from './try-sound.ts';

/** mm of the long side. Real tiles are 640 mm, and walls larger. */
const LENGTHS = [100, 210, 520, 910];
/** The short side: what is worked out for a box grows with its area. */
const NARROW = 43;
const BAND = { width: 48, height: 48 };
const PATCHES = 24;
const FRACTION = (Math.sqrt(5) - 1) / 2;

/** A look is another's where it is further off than chance would have it, and far enough to be seen. */
const MOST_ERRORS = 7;
const MOST_SHARE = 0.2;
const LEAST_SEEN = 1 / 255;

type Direction = 'across' | 'down';

/** How a texture looks, whatever the size of its repeat: each of these is one number per patch. */
const LOOKS = {
  'a mean': ({ values }: Channel) => meanOf(values),
  'a contrast': ({ values }: Channel) => deviationOf(values),
  'a step from pixel to pixel': stepOf,
} as const;

type Look = keyof typeof LOOKS;

/** Numbers of a look, over all patches, by channel. */
type Looks = Readonly<Record<string, Readonly<Record<Look, readonly number[]>>>>;

/**
 * Tries long, narrow boxes, coarsely and as sketches: that they repeat, and that they look as small ones do.
 *
 * @param tryRepeat Holds a sample to its repeat.
 * @throws Failed
 */
export async function tryLarge(bench: Bench, tryRepeat: (sample: Sample) => void): Promise<void> {
  for (const direction of ['across', 'down'] as const) {
    let small: Looks | undefined;
    for (const length of LENGTHS) {
      const sample = await prepareOrPass(bench, longTrial(length, direction));
      if (!sample) continue;
      tryRepeat(sample);
      trySound(bench, sample);
      const patches = patchesOf(bench, sample);
      const looks = looksOf(patches);
      if (small) compare(small, looks, sample, patches);
      small ??= looks;
    }
  }
}

function longTrial(length: number, direction: Direction): Trial {
  const [width, height] = direction === 'across' ? [length, NARROW] : [NARROW, length];
  return { ...HOME, layout: 'straight', width, height, pixelsPerMm: 2, quality: 'sketch' };
}

async function prepareOrPass(bench: Bench, trial: Trial): Promise<Sample | undefined> {
  try {
    return await bench.prepare(trial);
  } catch (error) {
    if (error instanceof Refused) return undefined;
    throw error;
  }
}

/** Patches strewn evenly over the repeat: whole steps of the golden ratio never meet again. */
function patchesOf(bench: Bench, sample: Sample): AnyLayer[] {
  const { width, height } = sample.grid;
  return Array.from({ length: PATCHES }, (_, k) => {
    const [along, aside] = [(k + 0.5) / PATCHES, (k * FRACTION) % 1];
    const [across, down] = width > height ? [along, aside] : [aside, along];
    return bench.paint(sample, { ...BAND, x: Math.floor(across * width), y: Math.floor(down * height) });
  });
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

/** @throws Failed where the look of a large box is not that of a small one, beyond what its patches vary by. */
function compare(small: Looks, looks: Looks, sample: Sample, patches: readonly AnyLayer[]): void {
  for (const [channel, measured] of Object.entries(looks)) {
    for (const look of Object.keys(LOOKS) as Look[]) {
      const [few, many] = [small[channel][look], measured[look]];
      const [before, after] = [meanOf(few), meanOf(many)];
      const error = Math.sqrt((deviationOf(few) ** 2 + deviationOf(many) ** 2) / PATCHES);
      const distance = Math.abs(after - before);
      const least = Math.max(MOST_ERRORS * error, MOST_SHARE * Math.max(Math.abs(before), Math.abs(after)));
      if (distance <= Math.max(least, LEAST_SEEN)) continue;
      throw new Failed(sample.trial, {
        expected: `${look} of ${channel} in a large box as in one of ${LENGTHS[0]} mm, ${before.toPrecision(3)}`,
        received: after.toPrecision(3),
        remedy:
          'Keep numbers and sizes per mm: no count, table or limit may stretch or change what a larger box holds.',
        picture: sideBySide(patches.slice(0, 3).map(showLayer)),
      });
    }
  }
}
