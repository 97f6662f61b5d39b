import type { AnyLayer } from '../layer.ts';
import { atDensity, type Bench, type Sample } from './bench.ts';
import { blockMeans, type Channel, channelsOf, deviationOf, distanceOf, meanOf } from './channels.ts';
import { Failed } from './failed.ts';
import { showLayer, sideBySide } from './picture.ts';
import { gridOfTrial, type Trial } from './trial.ts';

/** A box that has whole pixels at all three densities. mm and px/mm. */
const BOX = { layout: 'drop:1/2', width: 48, height: 36 } as const;
const FINE = 12;
/** 305 dpi is held against 152 and 76. */
const RATIOS = [2, 4];
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
 * of one fine pixel, 2 and 4 times.
 */
const MOST_CONTRAST = 1.7;
/** Less than this share of the texture's contrast is not worth comparing. */
const LEAST_SHARE = 0.1;

/**
 * Holds a trial's texture at half and a quarter of 305 dpi against the finer picture.
 *
 * @returns The largest difference found, as a share of the texture's contrast.
 * @throws Failed.
 */
export async function tryResolution(bench: Bench, trial: Trial): Promise<number> {
  const sample = await bench.prepare({ ...trial, ...BOX, pixelsPerMm: FINE });
  const fine = paintBox(bench, sample);
  const channels = channelsOf(fine);
  let largest = 0;
  for (const ratio of RATIOS) {
    const far = atDensity(sample, FINE / ratio);
    const coarse = paintBox(bench, far);
    const others = channelsOf(coarse);
    for (const [index, channel] of channels.entries()) {
      const found = compare(channel, others[index], ratio, contrastOf(channels, channel));
      largest = Math.max(largest, found.difference);
      if (found.fault) throw notTrue(far, ratio, found.fault, [fine, coarse]);
    }
  }
  return largest;
}

function paintBox(bench: Bench, sample: Sample): AnyLayer {
  const { width, height } = gridOfTrial(sample.trial);
  return bench.paint(sample, { x: 0, y: 0, width, height });
}

interface Comparison {
  readonly difference: number;
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
  if (difference > MOST_DIFFERENCE && apart > fine.least / 4) {
    const mean =
      Math.abs(shift) > apart / 2
        ? ` (its mean moves from ${show(meanOf(fine.values))} to ${show(meanOf(coarse.values))})`
        : '';
    return {
      difference,
      fault: `${name} that differs by ${Math.round(difference * 100)} % of the contrast${mean}`,
    };
  }
  const [pixels, wanted] = [deviationOf(coarse.values), deviationOf(averaged.values)];
  const floor = Math.max(fine.least, LEAST_SHARE * contrast);
  if (Math.max(pixels, wanted) > floor && pixels > MOST_CONTRAST * Math.max(wanted, floor / MOST_CONTRAST)) {
    return { difference, fault: `${name} with ${(pixels / wanted).toFixed(1)} times the contrast` };
  }
  return { difference };
}

function notTrue(far: Sample, ratio: number, received: string, [fine, coarse]: readonly AnyLayer[]): Failed {
  return new Failed(far.trial, {
    expected: `the picture at ${Math.round((FINE / ratio) * 25.4)} dpi to be the one at ${Math.round(FINE * 25.4)} dpi seen from further away`,
    received,
    remedy:
      'Size everything in mm, by band.mmPerPixelX and mmPerPixelY, and let what is finer than a pixel fade to its mean.',
    picture: sideBySide([showLayer(shrunk(fine, ratio)), showLayer(coarse)]),
  });
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
