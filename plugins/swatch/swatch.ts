import { decodeSrgb, divideLight, type Picture, parseHex, type Quality, type Rgb, slowLight } from 'tenter';
import { enlarged } from './enlarged.ts';
import { planesToLay } from './laying.ts';
import { linearOf } from './linear.ts';
import { findPaper } from './paper-colour.ts';
import type { SwatchValues } from './parameters.ts';
import { cutPart, partOf } from './part.ts';
import { reduced } from './reduced.ts';
import type { Level } from './way.ts';

/** Samples that are kept of a swatch: 170 x 170 mm at 300 dpi. */
const MOST_SAMPLES = 4e6;
const SKETCHED_SAMPLES = 4e5;

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

/** Takes a part of a picture, evens its light, finds its paper and makes of it what is laid. */
export function swatchOf(picture: Picture, values: SwatchValues, quality: Quality): Swatch {
  const rectangle = partOf(picture, values.part);
  const most = quality === 'sketch' ? SKETCHED_SAMPLES : MOST_SAMPLES;
  const cut = reduced(cutPart(picture, rectangle), most);
  const light = slowLight(reduced(cut, LIGHT_SAMPLES));
  const share = (values.evenLight / 100) * Math.min(1, MOST_FALLOFF / Math.log(Math.max(1, light.range)));
  const fields = {
    ...light,
    amounts: light.amounts.map((amounts) => amounts.map((amount) => share * amount)),
    means: light.means.map((mean) => share * mean),
  };
  const samples = (share > 0 ? divideLight(cut, fields) : cut.samples) as Uint16Array;
  const linear = linearOf({ ...cut, samples });
  const paper = values.paper === 'found' ? findPaper(linear) : linearRgb(parseHex(values.paperColour));
  const level = {
    ...linear,
    mmPerSample: linear.mmPerSample * values.scale,
    planes: planesToLay(linear, values.layAs, paper, values.strength / 100),
  };
  const { x, y, width, height } = rectangle;
  const { mmPerPixelX, mmPerPixelY } = picture;
  const part = [x * mmPerPixelX, y * mmPerPixelY, width * mmPerPixelX, height * mmPerPixelY];
  return {
    level: enlarged(level),
    part,
    asked: askedPart(part, values.part),
    isFlat: level.planes.every(isFlat),
    unevenness: light.range,
    paper,
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
