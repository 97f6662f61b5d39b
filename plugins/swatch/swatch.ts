import {
  type Box,
  decodeSrgb,
  divideLight,
  type Picture,
  parseHex,
  type Quality,
  type RandomStream,
  type Rgb,
  slowLight,
} from 'tenter';
import { enlarged } from './enlarged.ts';
import { planesToLay } from './laying.ts';
import { linearOf } from './linear.ts';
import { findPaper } from './paper-colour.ts';
import type { SwatchValues } from './parameters.ts';
import { cutPart, enoughFor, partOf } from './part.ts';
import { reduced } from './reduced.ts';
import type { Level } from './way.ts';

/** Samples that are kept of a swatch: 170 x 170 mm at 300 dpi. */
const MOST_SAMPLES = 4e6;
const SKETCHED_SAMPLES = 4e5;
/** The colour of the paper is looked for on so many. */
const PAPER_SAMPLES = 96 * 96;

/** Slow light is looked for on so many: it has no more than ten terms. */
const LIGHT_SAMPLES = 36 * 36;

/** No lamp of a scan falls off to less than half: what is more uneven is the painting's own. */
const MOST_FALLOFF = Math.log(2);

/** A swatch that is ready to be grown, and what was found in it. */
export interface Swatch {
  readonly level: Level;
  /** What was taken: mm from the left and the top, width and height; and what was asked where that is another. */
  readonly part: readonly number[];
  readonly asked: string | undefined;
  /** True where it is of one tone. */
  readonly isFlat: boolean;
  /** How many times as bright as the darkest the brightest light of the scan was. */
  readonly unevenness: number;
  /** Linear light. */
  readonly paper: Rgb;
}

/** What a swatch is made ready for. */
interface Wanted {
  readonly box: Box;
  readonly quality: Quality;
  /** Says which part of a swatch far larger than the box is used. */
  readonly random: RandomStream;
}

/** Takes a part of a picture, evens its light, finds its paper and makes of it what is laid. */
export function swatchOf(picture: Picture, values: SwatchValues, { box, quality, random }: Wanted): Swatch {
  const rectangle = partOf(picture, values.part);
  const most = quality === 'sketch' ? SKETCHED_SAMPLES : MOST_SAMPLES;
  const { range, evened } = evenedLight(reduced(cutPart(picture, rectangle), most), values.evenLight / 100);
  const paper =
    values.paper === 'found'
      ? findPaper(linearOf(reduced(evened, PAPER_SAMPLES)))
      : linearRgb(parseHex(values.paperColour));
  const linear = linearOf(cutPart(evened, enoughFor(evened, box, values.scale, random)));
  const planes = planesToLay(linear, values.layAs, paper, values.strength / 100);
  const { x, y, width, height } = rectangle;
  const { mmPerPixelX, mmPerPixelY } = picture;
  const part = [x * mmPerPixelX, y * mmPerPixelY, width * mmPerPixelX, height * mmPerPixelY];
  return {
    level: enlarged({ ...linear, mmPerSample: linear.mmPerSample * values.scale, planes }),
    part,
    asked: askedPart(part, values.part),
    isFlat: planes.every(isFlat),
    unevenness: range,
    paper,
  };
}

/** A picture with so much of its slow light divided out, and how uneven that was. */
function evenedLight(picture: Picture, wanted: number): { range: number; evened: Picture } {
  const light = slowLight(reduced(picture, LIGHT_SAMPLES));
  const share = wanted * Math.min(1, MOST_FALLOFF / Math.log(Math.max(1, light.range)));
  if (!(share > 0)) return { range: light.range, evened: picture };
  const fields = {
    ...light,
    amounts: light.amounts.map((amounts) => amounts.map((amount) => share * amount)),
    means: light.means.map((mean) => share * mean),
  };
  return {
    range: light.range,
    evened: { ...picture, samples: divideLight(picture, fields) as Uint16Array },
  };
}

/** What was asked where something else was taken, by more than a pixel's rounding. */
function askedPart(taken: readonly number[], wanted: readonly number[]): string | undefined {
  const isOther = wanted.some((value, k) => (k < 2 || value > 0) && Math.abs(value - taken[k]) > 0.5);
  return isOther ? `${wanted[2]} x ${wanted[3]} mm from ${wanted[0]}, ${wanted[1]} mm` : undefined;
}

/** Numbers that differ by less than a step of 8 bits are of one tone. */
const FLAT = 1 / 255;

function isFlat(plane: Float32Array): boolean {
  let [least, most] = [plane[0], plane[0]];
  for (const value of plane) {
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return most - least < FLAT;
}

function linearRgb([red, green, blue]: Rgb): Rgb {
  return [decodeSrgb(red), decodeSrgb(green), decodeSrgb(blue)];
}
