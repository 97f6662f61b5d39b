import type { AnyLayer } from '../layer.ts';
import { atDensity, type Bench, type Sample } from './bench.ts';
import { blockMeans, type Channel, deviationOf, distanceOf, meanOf } from './channels.ts';
import { Failed } from './failed.ts';
import { laidChannelsOf, neutralOf } from './laid-channels.ts';
import { showLayer, sideBySide } from './picture.ts';
import type { Trial } from './trial.ts';
import { requireSound } from './try-sound.ts';

/** A box that has whole pixels at all densities. mm. */
const BOX = { layout: 'drop:1/2', width: 50, height: 40 } as const;
/** A part of it that is enough where pixels are fine. mm. */
const PART = { width: 12.5, height: 10 };

/** One finer picture and those that are held against it, px/mm. */
interface Ladder {
  readonly fine: number;
  readonly coarser: readonly number[];
  /** mm of the box that are looked at. */
  readonly area: { readonly width: number; readonly height: number };
}

/** 305 dpi is held against 152, 76 and 30; and 1,219 dpi against 610 and 305. */
const LADDERS: readonly Ladder[] = [
  { fine: 12, coarser: [6, 3, 1.2], area: BOX },
  { fine: 48, coarser: [24, 12], area: PART },
];
/** Pixels of the coarser picture to a block: detail finer than this may be drawn otherwise from afar. */
const BLOCK = 4;

/**
 * Both pictures are brought to blocks of four pixels of the coarser one, a scale that either can show,
 * and compared there: the root of the mean squared difference must stay below a quarter of the texture's
 * contrast, that of its strongest channel. A texture of fine detail alone comes to nearly nothing at that
 * scale and passes if it does so in both pictures. A texture that counts in pixels is another one at another
 * density: two unrelated noises of 3 px differ there by more than half their contrast, and lines one
 * pixel wide by three quarters. Ten woven, grained, brushed and wet effects, with each parameter at its
 * extremes, come to a fifth at most.
 */
const MOST_DIFFERENCE = 0.25;
/**
 * The contrast from pixel to pixel may be this many times that of the finer picture averaged over the same
 * pixels. Sampling fine detail at points instead of averaging it keeps its whole contrast: for noise
 * of one fine pixel, 2 and 4 times. What is added must be seen, too: boards a pixel apart come to 1.8 times
 * a contrast that is hardly there.
 */
const MOST_CONTRAST = 1.7;
/** The mean may move by this many of the differences that are just seen, or this share of the contrast. */
const MOST_TONE = 3;
const MOST_TONE_SHARE = 0.25;
/**
 * Nor by more than this share of what the texture does to the artwork at all, the mean distance from its neutral,
 * where it moves by half of what is just seen: dots that cover little have contrast enough to thin out in. The
 * effects that come with the host, each parameter at its extremes, come to 0.12 at most, slubs of raw silk from afar.
 * `load` is an exponent (see `VERY_FAR`): 0.33, five layers of a dry brush on rough paper at 30 dpi. Dots that
 * end a pixel too early come to 0.2 at 76 dpi and to 0.5 and more at 30.
 */
const MOST_DRIFT = 0.2;
const MOST_DRIFT_OF_LOAD = 0.45;
/** In steps that can be seen: of what is hardly there, thin cracks far apart, a large share is nothing yet. */
const LEAST_DRIFT = 1;
/**
 * From so far a pixel is as wide as a bristle or a pore, and what is drawn from the middles of such pixels comes
 * out a little darker where it is an exponent, as `load` is: the bounds are a third wider there, but for
 * harshness, which shows from afar too. The most that a sound effect drifts, a dry brush on the roughest
 * paper, from a light of 0.52 to 0.44, is 5 steps of L*: twice what is just seen side by side (2.3, M. Mahy
 * et al., Evaluation of uniform color spaces, 1994), and a sketch of 30 dpi stands beside nothing.
 */
const VERY_FAR = 10;
const WIDER = 4 / 3;
/** Less than this share of the texture's contrast is not worth comparing. */
const LEAST_SHARE = 0.1;

/** The trial over the box that is looked at. */
export function inFarView(trial: Trial): Trial {
  return { ...trial, ...BOX, pixelsPerMm: LADDERS[0].fine };
}

/** The most that was found over all densities. */
export interface FarView {
  /** As a share of the texture's contrast. */
  readonly difference: number;
  /** How far the mean moved, as a share of what the texture does to the artwork. */
  readonly drift: number;
}

/**
 * Holds a texture at coarser densities, down to 30 dpi, against the finer picture.
 *
 * @param sample Of a trial as `inFarView` makes it.
 * @throws Failed.
 */
export function tryResolution(bench: Bench, sample: Sample): FarView {
  return mostOf(LADDERS.map((ladder) => tryLadder(bench, sample, ladder)));
}

/** The most of each. */
export function mostOf(views: readonly FarView[]): FarView {
  return {
    difference: Math.max(0, ...views.map(({ difference }) => difference)),
    drift: Math.max(0, ...views.map(({ drift }) => drift)),
  };
}

function tryLadder(bench: Bench, sample: Sample, { fine, coarser, area }: Ladder): FarView {
  const near = atDensity(sample, fine);
  const finer = paintArea(bench, near, area);
  const channels = laidChannelsOf(finer);
  const views: FarView[] = [];
  for (const density of coarser) {
    const far = atDensity(sample, density);
    const coarse = paintArea(bench, far, area);
    const others = laidChannelsOf(coarse);
    const ratio = Math.round(fine / density);
    for (const [index, channel] of channels.entries()) {
      const found = compare(channel, others[index], ratio, contrastOf(channels, channel));
      views.push(found);
      if (found.fault) throw notTrue(far, near, found.fault, [finer, coarse]);
    }
  }
  return mostOf(views);
}

function paintArea(bench: Bench, sample: Sample, { width, height }: Ladder['area']): AnyLayer {
  const { pixelsPerMm } = sample.trial;
  const view = {
    x: 0,
    y: 0,
    width: Math.round(width * pixelsPerMm),
    height: Math.round(height * pixelsPerMm),
  };
  const layer = bench.paintAnyhow(sample, view);
  requireSound(sample, layer, view);
  return layer;
}

interface Comparison extends FarView {
  /** What is wrong, in words. */
  readonly fault?: string;
}

/** The contrast of the strongest channel of the same unit: a faint one is not worth more than it shows. */
function contrastOf(channels: readonly Channel[], { least }: Channel): number {
  const alike = channels.filter((channel) => channel.least === least);
  return Math.max(least, ...alike.map(({ values }) => deviationOf(values)));
}

function compare(fine: Channel, coarse: Channel, ratio: number, contrast: number): Comparison {
  const averaged = blockMeans(fine, ratio);
  const [near, far] = [blockMeans(averaged, BLOCK), blockMeans(coarse, BLOCK)];
  const apart = distanceOf(near.values, far.values);
  const difference = apart / contrast;
  const shift = meanOf(coarse.values) - meanOf(fine.values);
  const { name } = fine;
  const allowed = ratio < VERY_FAR ? 1 : WIDER;
  const drift = driftOf(fine, shift);
  if (difference > allowed * MOST_DIFFERENCE && apart > fine.least / 4) {
    const mean = Math.abs(shift) > apart / 2 ? ` (${moves(fine, coarse)})` : '';
    return {
      difference,
      drift,
      fault: `${name} that differs by ${Math.round(difference * 100)} % of the contrast${mean}${pixelsAside(near, far, ratio)}`,
    };
  }
  const floor = Math.max(fine.least, LEAST_SHARE * contrast);
  const jump = Math.abs(shift);
  if (jump > Math.max(MOST_TONE * fine.least, allowed * MOST_TONE_SHARE * contrast)) {
    return { difference, drift, fault: `${name} of another tone: ${moves(fine, coarse)}` };
  }
  if (drift > (name === 'load' ? MOST_DRIFT_OF_LOAD : MOST_DRIFT)) {
    const share = `${Math.round(drift * 100)} % of what it does to the artwork`;
    return { difference, drift, fault: `${name} of another tone: ${moves(fine, coarse)}, ${share}` };
  }
  const [wanted, shown] = [bandsOf(averaged), bandsOf(coarse)];
  const band = shown.findIndex((value, k) => value > MOST_CONTRAST * wanted[k] && value - wanted[k] > floor);
  if (band < 0) return lostContrast(name, wanted, shown, floor) ?? { difference, drift };
  const times = shown[band] / wanted[band];
  const size = band === 0 ? 'from pixel to pixel' : `over ${2 ** band} px`;
  return { difference, drift, fault: `${name} with ${times.toFixed(1)} times the contrast ${size}` };
}

/** What fades before a pixel is too large to show it; what is as fine as two pixels may be gone. */
function lostContrast(
  name: string,
  wanted: readonly number[],
  shown: readonly number[],
  floor: number,
): Comparison | undefined {
  const band = wanted.findIndex(
    (value, k) => k >= FIRST_KEPT && value > MOST_LOSS * shown[k] && value - shown[k] > floor,
  );
  wanted.forEach((value, k) => {
    if (k >= 1 && value - shown[k] > floor)
      console.error('LOSS', name, k, (value / shown[k]).toFixed(2), value.toFixed(4));
  });
  if (band < 0) return undefined;
  const share = Math.round((100 * shown[band]) / wanted[band]);
  return {
    difference: 0,
    drift: 0,
    fault: `${name} with ${share} % of the contrast that is seen over ${2 ** band} px: it fades too early`,
  };
}

/** What shrinks as pixels grow, though its plane is in mm, was written in pixels. */
function pixelsAside(near: Channel, far: Channel, ratio: number): string {
  if (!/^(shift|bleed|relief)/.test(near.name)) return '';
  let [products, squares] = [0, 0];
  for (let k = 0; k < near.values.length; k++) {
    products += near.values[k] * far.values[k];
    squares += near.values[k] ** 2;
  }
  const times = (products / squares) * ratio;
  return Math.abs(times - 1) < IN_PIXELS ? ', as it would in pixels: it is in mm' : '';
}

/** How far the mean moves as a share of what the channel does to the artwork; none where nobody would see it. */
function driftOf(fine: Channel, shift: number): number {
  if (Math.abs(shift) <= LEAST_DRIFT * fine.least) return 0;
  const neutral = neutralOf(fine);
  return Math.abs(shift) / meanOf(fine.values.map((value) => Math.abs(value - neutral)));
}

function moves(fine: Channel, coarse: Channel): string {
  return `its mean moves from ${show(meanOf(fine.values))} to ${show(meanOf(coarse.values))}`;
}

/** How near to the ratio of two densities what shrinks with them comes. */
const IN_PIXELS = 0.1;

const BANDS = 4;
/** The band of contrast from which on all must be there, and how many times less of it may be. */
const FIRST_KEPT = 2;
const MOST_LOSS = 3;

/**
 * The contrast by the size of what is drawn: between pixels, between pairs of them, and so on. The variance of
 * block means is that of means over blocks of four such, and of the differences in these (Haar).
 */
function bandsOf(channel: Channel): number[] {
  const bands: number[] = [];
  let [blocks, variance] = [channel, deviationOf(channel.values) ** 2];
  for (let band = 0; band < BANDS && Math.min(blocks.width, blocks.height) >= 8; band++) {
    blocks = blockMeans(blocks, 2);
    const left = deviationOf(blocks.values) ** 2;
    bands.push(Math.sqrt(Math.max(0, variance - left)));
    variance = left;
  }
  return bands;
}

const IN_MM =
  'Size everything in mm, by band.mmPerPixelX and mmPerPixelY, and let what is finer than a pixel fade to its mean: the soft edge of a shape lies half inside and half outside of it.';
const CUT =
  'What is cut at a level, clamped or raised to a power after it has faded has another mean than what fades last: let the level soften, or the share above it be worked out, as the pixels grow.';
const LOADS =
  'A load is an exponent, so the mean of several is no plain one: meanOfLoads and blendLoads of "tenter" take it.';

function notTrue(far: Sample, near: Sample, received: string, [fine, coarse]: readonly AnyLayer[]): Failed {
  const [coarseDensity, fineDensity] = [far, near].map(({ trial }) => trial.pixelsPerMm);
  return new Failed(far.trial, {
    expected: `the picture at ${dpi(coarseDensity)} dpi to be the one at ${dpi(fineDensity)} dpi seen from further away`,
    received,
    remedy: [
      IN_MM,
      ...(received.includes('another tone') ? [CUT] : []),
      ...(coarse.load ? [LOADS] : []),
    ].join(' '),
    picture: sideBySide(
      [showLayer(shrunk(fine, Math.round(fineDensity / coarseDensity))), showLayer(coarse)],
      `The picture at ${dpi(fineDensity)} dpi made smaller, and beside it the one drawn at ${dpi(coarseDensity)} dpi.`,
    ),
  });
}

function dpi(pixelsPerMm: number): number {
  return Math.round(pixelsPerMm * 25.4);
}

function shrunk(layer: AnyLayer, ratio: number): AnyLayer {
  const width = Math.floor(layer.width / ratio);
  const height = Math.floor(layer.height / ratio);
  const made: Record<string, Float32Array> = {};
  for (const [plane, numbers] of Object.entries(layer)) {
    if (!(numbers instanceof Float32Array)) continue;
    const channels = numbers.length / (layer.width * layer.height);
    const means = new Float32Array(width * height * channels);
    for (let y = 0; y < height * ratio; y++) {
      for (let x = 0; x < width * ratio; x++) {
        const to = (Math.floor(y / ratio) * width + Math.floor(x / ratio)) * channels;
        const from = (y * layer.width + x) * channels;
        for (let c = 0; c < channels; c++) means[to + c] += numbers[from + c] / (ratio * ratio);
      }
    }
    made[plane] = means;
  }
  return { width, height, ...made };
}

function show(value: number): string {
  return value.toFixed(3);
}
