import type { Rgb } from '../colour/hex.ts';
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
