import { colourDifference } from '../colour/difference.ts';
import type { Frame } from '../colour/frame.ts';
import { labOfSrgb } from '../colour/lab.ts';
import { fullSample, ownBlank } from '../colour/samples.ts';
import type { ShadeCard } from './card.ts';
import { linearInks } from './linear-inks.ts';
import { mixInto } from './mix.ts';
import { blankMixture } from './mixture.ts';
import { spreadOf } from './seen-difference.ts';
import { createUnmixer, type Unmixer } from './unmix.ts';

/** How far the mixes of a card's inks are off a picture, CIEDE2000. */
export interface Misfit {
  readonly mean: number;
  /** 95 of 100 pixels are off by at most this. */
  readonly p95: number;
}

/** A card that fits its picture stays well below either; one of another tile does not. */
const MOST_MEAN = 4;
const MOST_P95 = 12;
/** Pixels that are looked at, evenly over the picture. */
const LOOKED_AT = 20_000;

/** True for a card that most likely belongs to another picture. */
export function isMisfit({ mean, p95 }: Misfit): boolean {
  return mean > MOST_MEAN || p95 > MOST_P95;
}

/** Looks how well a card explains a picture, on some 20,000 pixels of it that are not wholly transparent. */
export function measureMisfit(
  { pixels, width, height }: Frame,
  card: ShadeCard,
  unmixer: Unmixer = createUnmixer(card),
): Misfit {
  const looked = lookedAt(width * height);
  const samples = ownBlank(pixels, 4 * looked.length);
  const full = fullSample(pixels);
  let count = 0;
  for (const place of looked) {
    if (pixels[4 * place + 3] === 0) continue;
    samples.set(pixels.subarray(4 * place, 4 * place + 3), 4 * count);
    samples[4 * count + 3] = full;
    count++;
  }
  if (count === 0) return { mean: 0, p95: 0 };
  const run = samples.subarray(0, 4 * count);
  const mixture = blankMixture(count);
  unmixer.unmix(run, mixture);
  const mixed = ownBlank(pixels, run.length);
  mixInto(mixture, linearInks(card), mixed);
  const off = Float64Array.from({ length: count }, (_, k) =>
    colourDifference(labAt(run, 4 * k, full), labAt(mixed, 4 * k, full)),
  );
  return spreadOf(off);
}

/** Places spread by the golden ratio, so that no repeat of the motif falls into step with them. */
function lookedAt(pixels: number): number[] {
  if (pixels <= LOOKED_AT) return Array.from({ length: pixels }, (_, place) => place);
  return Array.from({ length: LOOKED_AT }, (_, k) => Math.floor(((k * 0.618_033_988_749_895) % 1) * pixels));
}

function labAt(samples: Frame['pixels'], at: number, full: number) {
  return labOfSrgb([samples[at] / full, samples[at + 1] / full, samples[at + 2] / full]);
}
