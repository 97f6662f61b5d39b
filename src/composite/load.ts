import type { Rgb } from '../colour/hex.ts';
import { LINEAR_OF_BYTE } from '../colour/srgb.ts';
import { exponential, LOGARITHMS, logarithmOfBits, OCTAVES, POWERS } from './power.ts';
import { type Strength, strengthList } from './strength.ts';

/**
 * The least light that paint is taken to return: half a step above an 8-bit zero, an absorbance of
 * 3.8. Without it a written black would be infinitely dense and no lifting could ever thin it.
 */
export const LEAST_REFLECTANCE = Math.fround(0.5 / 255 / 12.92);
/** Positive floats stand in the order of their bits, so the bits can be compared in their place. */
const LEAST_BITS = new Int32Array(Float32Array.of(LEAST_REFLECTANCE).buffer)[0];

/**
 * Lays a load plane in place: R' = P * (R / P)^load' per channel in linear light, where
 * load' = 1 + (load - 1) * strength. By the Beer-Lambert law the absorbance of the paint,
 * -log10(R / P), is proportional to how much paint is there. Alpha stays. Where hues part, each channel has
 * the load of its own, load + parting, at least 0; for one ink all three are the same.
 *
 * Channels darker than `LEAST_REFLECTANCE` are thinned as if they returned that much, and keep
 * their own value at load 1.
 *
 * @param working Linear RGBA, `4 * load.length` numbers.
 * @param load    How much of the paint is there, 1 = as painted, >= 0.
 * @param paper   P, linear.
 * @param parting How much more or less paint there is in each channel, three per pixel.
 */
export function layLoad(
  working: Float32Array,
  load: Float32Array,
  paper: Rgb,
  strength: Strength,
  parting?: Float32Array,
): void {
  const { list, step } = strengthList(strength);
  const bits = new Int32Array(working.buffer, working.byteOffset, working.length);
  const [logarithms, powers, octaves] = [LOGARITHMS, POWERS, OCTAVES];
  const [red, green, blue] = paper.map(paperLogarithm);
  for (let pixel = 0, at = 0; pixel < load.length; pixel++, at += 4) {
    const strong = list[pixel * step];
    const amount = 1 + (load[pixel] - 1) * strong;
    if (parting !== undefined) {
      const own = 3 * pixel;
      for (let channel = 0; channel < 3; channel++) {
        const parted = Math.max(0, amount + parting[own + channel] * strong);
        const [k, ground] = [at + channel, channel === 0 ? red : channel === 1 ? green : blue];
        if (parted !== 1)
          working[k] = loaded(logarithms, powers, octaves, working[k], bits[k], parted, ground);
      }
      continue;
    }
    if (amount === 1) continue;
    working[at] = loaded(logarithms, powers, octaves, working[at], bits[at], amount, red);
    working[at + 1] = loaded(logarithms, powers, octaves, working[at + 1], bits[at + 1], amount, green);
    working[at + 2] = loaded(logarithms, powers, octaves, working[at + 2], bits[at + 2], amount, blue);
  }
}

/**
 * Reads bytes into a working band under a load plane: what `readBand` and `layLoad` come to, bit for bit. How
 * dense the paint of a byte is need be known but once.
 *
 * @param pixels      RGBA.
 * @param firstSample Index of the first pixel's R.
 * @param working     Receives `4 * load.length` numbers.
 * @param parting     As in `layLoad`.
 */
export function readLoaded(
  pixels: Uint8Array,
  firstSample: number,
  working: Float32Array,
  load: Float32Array,
  paper: Rgb,
  strength: Strength,
  parting?: Float32Array,
): void {
  const { list, step } = strengthList(strength);
  const [powers, octaves, linear] = [POWERS, OCTAVES, LINEAR_OF_BYTE];
  const [red, green, blue] = paper.map(paperLogarithm);
  const { reds, greens, blues } = densitiesOver(paper);
  for (let pixel = 0, to = 0, from = firstSample; pixel < load.length; pixel++, to += 4, from += 4) {
    const strong = list[pixel * step];
    const amount = 1 + (load[pixel] - 1) * strong;
    let ofRed = amount;
    let ofGreen = amount;
    let ofBlue = amount;
    if (parting !== undefined) {
      const own = 3 * pixel;
      ofRed = Math.max(0, amount + parting[own] * strong);
      ofGreen = Math.max(0, amount + parting[own + 1] * strong);
      ofBlue = Math.max(0, amount + parting[own + 2] * strong);
    }
    const r = pixels[from];
    const g = pixels[from + 1];
    const b = pixels[from + 2];
    working[to] = underPaint(powers, octaves, linear[r], reds[r], ofRed, red);
    working[to + 1] = underPaint(powers, octaves, linear[g], greens[g], ofGreen, green);
    working[to + 2] = underPaint(powers, octaves, linear[b], blues[b], ofBlue, blue);
    working[to + 3] = pixels[from + 3] / 255;
  }
}

/** By how many doublings of light each byte of a channel is darker than the paper. */
interface Densities {
  readonly paper: Rgb;
  readonly reds: Float64Array;
  readonly greens: Float64Array;
  readonly blues: Float64Array;
}

let densities: Densities | undefined;

/** Those of the paper asked for last are kept: a render has one, and asks for them thousands of times. */
function densitiesOver(paper: Rgb): Densities {
  if (densities?.paper.every((channel, index) => channel === paper[index])) return densities;
  const [reds, greens, blues] = paper.map((channel) => densitiesOfBytes(paperLogarithm(channel)));
  densities = { paper: [...paper], reds, greens, blues };
  return densities;
}

function densitiesOfBytes(paper: number): Float64Array {
  return Float64Array.from(
    LINEAR_BITS,
    (bits) => paper - logarithmOfBits(LOGARITHMS, Math.max(bits, LEAST_BITS)),
  );
}

const LINEAR_BITS = new Int32Array(LINEAR_OF_BYTE.buffer);

function paperLogarithm(paper: number): number {
  return Math.log2(Math.max(paper, LEAST_REFLECTANCE));
}

function loaded(
  logarithms: Float64Array,
  powers: Float64Array,
  octaves: Float64Array,
  light: number,
  bits: number,
  amount: number,
  paper: number,
): number {
  const least = LEAST_REFLECTANCE;
  const density = paper - logarithmOfBits(logarithms, Math.max(bits, LEAST_BITS));
  const laid = exponential(powers, octaves, paper - amount * density);
  return light >= least ? laid : Math.max(0, laid - amount * (least - light));
}

/** The same of a density that is known: written out, for one that calls the other takes a fifth longer. */
function underPaint(
  powers: Float64Array,
  octaves: Float64Array,
  light: number,
  density: number,
  amount: number,
  paper: number,
): number {
  if (amount === 1) return light;
  const least = LEAST_REFLECTANCE;
  const laid = exponential(powers, octaves, paper - amount * density);
  return light >= least ? laid : Math.max(0, laid - amount * (least - light));
}
