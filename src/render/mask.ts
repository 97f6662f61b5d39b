import { parseHex } from '../colour/hex.ts';
import { labOfSrgb } from '../colour/lab.ts';
import { openColourMask, type Strength } from '../composite/index.ts';
import type { Band } from '../effect/effect.ts';
import type { LaidCount, MaskOrder, PassOrder, StepOrder } from './orders.ts';
import { bandIn, openPicture } from './pass-pictures.ts';
import { runsOf } from './runs.ts';

/** Of `LaidCount`. */
const PARTS = 65_536;

/** Gives opacity x mask: one number where there is no mask, else one per pixel, in memory that is used again. */
export interface StrengthReader {
  /** Of a band of the frame, which is counted as laid. */
  over(band: Band, opacity: number): Strength;
  /** Of any rectangle of the plane, of which nothing is counted. */
  around(rectangle: Band, opacity: number): Strength;
}

/** Opens a step's mask for the bands of a pass. */
export function openMask({ mask, paper }: StepOrder, pass: PassOrder): StrengthReader {
  if (!mask) return { over: (_band, opacity) => opacity, around: (_band, opacity) => opacity };
  const store = new Float32Array(pass.width * pass.bandRows);
  const picture = openPicture(pass, 'original');
  let wide = new Float32Array(0);
  const fill = mask.kind === 'colours' ? colourFiller(mask, paper, pass) : pictureFiller(mask);
  return {
    over(band, opacity) {
      const { x, y, width, height } = bandIn(picture, band);
      const count = width * height;
      const strength = store.subarray(0, count);
      const isWhole = x === 0 && width === picture.width;
      if (isWhole) fill(y * width, strength);
      else
        for (let row = 0; row < height; row++)
          fill((y + row) * picture.width + x, strength.subarray(row * width, (row + 1) * width));
      let sum = 0;
      for (let k = 0; k < count; k++) {
        sum += strength[k];
        strength[k] *= opacity;
      }
      Atomics.add(mask.laid, 0, BigInt(Math.round(sum * PARTS)));
      return strength;
    },
    around(rectangle, opacity) {
      const count = rectangle.width * rectangle.height;
      if (wide.length < count) wide = new Float32Array(count);
      const strength = wide.subarray(0, count);
      for (const { at, first, length } of runsOf(bandIn(picture, rectangle), picture.find))
        fill(first, strength.subarray(at, at + length));
      for (let k = 0; k < count; k++) strength[k] *= opacity;
      return strength;
    },
  };
}

/** A count that stands at nothing. */
export function openLaidCount(): LaidCount {
  return new BigInt64Array(new SharedArrayBuffer(8));
}

/** The share of a frame of so many pixels that a mask let through, 0..1. */
export function laidShare({ laid }: MaskOrder, pixels: number): number {
  return Number(laid[0]) / PARTS / pixels;
}

type Filler = (firstPixel: number, strength: Float32Array) => void;

function colourFiller(mask: Extract<MaskOrder, { kind: 'colours' }>, paper: string, pass: PassOrder): Filler {
  const colours = mask.colours.map((hex) => labOfSrgb(parseHex(hex)));
  const fill = openColourMask({ ...mask, colours, paper: parseHex(paper) });
  return (firstPixel, strength) => fill(pass.original, firstPixel * 4, strength);
}

function pictureFiller({ samples, spare }: Extract<MaskOrder, { kind: 'picture' }>): Filler {
  return (firstPixel, strength) => {
    for (let k = 0; k < strength.length; k++) {
      const white = samples[firstPixel + k] / 255;
      strength[k] = spare ? 1 - white : white;
    }
  };
}
