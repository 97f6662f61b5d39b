import { colourDifference } from '../colour/difference.ts';
import { labOfLinear } from '../colour/lab.ts';
import { select } from '../field/select.ts';

/** How far two pictures are apart for an eye that sees squares of some pixels as one: CIEDE2000. */
export interface SeenDifference {
  readonly mean: number;
  readonly p95: number;
}

/** The mean of some differences, one or more, and what 95 of 100 do not exceed. Puts them into another order. */
export function spreadOf(differences: Float64Array): { readonly mean: number; readonly p95: number } {
  const count = differences.length;
  const mean = differences.reduce((sum, one) => sum + one, 0) / count;
  return { mean, p95: select(differences, Math.min(count - 1, Math.floor(0.95 * count))) };
}

/** Adds pixels up in squares. */
export interface SquareSums {
  /** Adds the linear light of both pictures at a pixel. */
  add(x: number, y: number, first: Light, second: Light): void;
  difference(): SeenDifference;
}

interface Light {
  readonly [channel: number]: number;
}

/** @param side Pixels along a square; those at the right and lower edge may be cut. */
export function createSquareSums(width: number, height: number, side: number): SquareSums {
  const across = Math.ceil(width / side);
  const count = across * Math.ceil(height / side);
  const sums = new Float64Array(6 * count);
  const pixels = new Uint32Array(count);
  return {
    add(x, y, first, second) {
      const square = Math.floor(y / side) * across + Math.floor(x / side);
      for (let channel = 0; channel < 3; channel++) {
        sums[6 * square + channel] += first[channel];
        sums[6 * square + 3 + channel] += second[channel];
      }
      pixels[square]++;
    },
    difference() {
      const all = new Float64Array(count);
      for (let square = 0; square < count; square++) {
        const [a, b, c, d, e, f] = sums
          .subarray(6 * square, 6 * square + 6)
          .map((sum) => sum / pixels[square]);
        all[square] = colourDifference(labOfLinear(a, b, c), labOfLinear(d, e, f));
      }
      return spreadOf(all);
    },
  };
}
