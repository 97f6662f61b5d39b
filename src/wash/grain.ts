import { fractalOnPixels } from '../field/footprint.ts';
import { addFractalRow, type FractalNoise } from '../field/fractal.ts';
import { fractalVariance } from '../field/share.ts';
import type { WashPaper } from './paper.ts';

/** The paper as paint sees it; both lists hold the row that was asked for last, in deviations, mean 0. */
export interface GrainRows {
  /** How deep the paper lies, per pixel. */
  readonly tooth: Float64Array;
  /** How much settles there, per pixel: hollows are deeper than hills are high, and fibres show where paint lies. */
  readonly settled: Float64Array;
  /** What of the variance of the tooth pixels of this size show. */
  readonly shown: number;
  /** Works out a row of pixels, from `x0` mm on. */
  row(x0: number, y: number, count: number): void;
}

/** How much more hollows take than hills give, and how much more fibres show there, per deviation. */
const SKEW = 0.2;
const FIBRES = 0.8;

/** Opens the grain of a paper at pixels of this size, for rows of at most `most` of them. */
export function openGrain(paper: WashPaper, stepX: number, stepY: number, most: number): GrainRows {
  const onPixels = (noise: FractalNoise) => fractalOnPixels(noise, stepX, stepY);
  const teeth = paper.teeth.map(onPixels);
  const fine = onPixels(paper.fine);
  const coarse = teeth.reduce((sum, noise) => sum + fractalVariance(noise), 0);
  const [tooth, settled] = [new Float64Array(most), new Float64Array(most)];
  return {
    tooth,
    settled,
    shown: coarse + fractalVariance(fine),
    row(x0, y, count) {
      tooth.fill(0);
      settled.fill(0);
      for (const noise of teeth) addFractalRow(noise, x0, stepX, y, 1, tooth, count);
      addFractalRow(fine, x0, stepX, y, 1, settled, count);
      for (let i = 0; i < count; i++) {
        const hollow = tooth[i];
        const fibre = settled[i];
        const lain = hollow < -1 ? 0.2 : 1 + FIBRES * hollow;
        settled[i] = hollow + SKEW * (hollow * hollow - coarse) + lain * fibre;
        tooth[i] = hollow + fibre;
      }
    },
  };
}
