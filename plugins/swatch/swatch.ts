import { decodeSrgb, divideLight, type Picture, parseHex, type Rgb, slowLight } from 'tenter';
import { enlarged } from './enlarged.ts';
import { planesToLay } from './laying.ts';
import { linearOf } from './linear.ts';
import { findPaper } from './paper-colour.ts';
import type { SwatchValues } from './parameters.ts';
import { cutPart, type Part, partOf } from './part.ts';
import type { Level } from './way.ts';

/** Samples that are kept of a swatch: 170 x 170 mm at 300 dpi. */
const MOST_SAMPLES = 4e6;

/** A swatch that is ready to be grown, and what was found in it. */
export interface Swatch {
  readonly level: Level;
  readonly part: Part;
  /** How many times as bright as the darkest the brightest light of the scan was. */
  readonly unevenness: number;
  /** Linear light. */
  readonly paper: Rgb;
}

/** Takes a part of a picture, evens its light, finds its paper and makes of it what is laid. */
export function swatchOf(picture: Picture, values: SwatchValues): Swatch {
  const part = partOf(picture, values.part);
  const cut = cutPart(picture, part);
  const share = values.evenLight / 100;
  const light = slowLight(cut);
  const fields = {
    ...light,
    amounts: light.amounts.map((amounts) => amounts.map((amount) => share * amount)),
    means: light.means.map((mean) => share * mean),
  };
  const samples = (share > 0 ? divideLight(cut, fields) : cut.samples) as Uint16Array;
  const linear = linearOf({ ...cut, samples }, MOST_SAMPLES);
  const paper = values.paper === 'found' ? findPaper(linear) : linearRgb(parseHex(values.paperColour));
  const level = {
    ...linear,
    mmPerSample: linear.mmPerSample * values.scale,
    planes: planesToLay(linear, values.layAs, paper, values.strength / 100),
  };
  return { level: enlarged(level), part, unevenness: light.range, paper };
}

function linearRgb([red, green, blue]: Rgb): Rgb {
  return [decodeSrgb(red), decodeSrgb(green), decodeSrgb(blue)];
}
