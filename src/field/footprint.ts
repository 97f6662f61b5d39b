import type { CellLattice } from './cells.ts';
import type { FractalNoise } from './fractal.ts';
import { fade } from './gradient.ts';

/*
 * A pixel shows the mean of a texture over its own area, a sample its value at one point. Where cells
 * are many pixels wide the two agree; below that a sampled noise is too strong and too rough, and 75 dpi
 * no longer looks like 300 dpi from further away. What follows is the exact remedy for the strength.
 *
 * Corners' gradients are independent, so two points correlate through the corners they share alone:
 * with w(x) = 1 - fade(|x|), A(d) = integral of x*(x+d)*w(x)*w(x+d) and B(d) = integral of w(x)*w(x+d),
 * the covariance at (d, e) cells is (A(d)*B(e) + B(d)*A(e)) / 2. At 0 it is the known variance.
 */

/** Table steps per cell. */
const STEPS = 64;
/** Beyond two cells no corner is shared. */
const REACH = 2 * STEPS;

let tables: { readonly a: Float64Array; readonly b: Float64Array } | undefined;

function correlationTables() {
  if (tables) return tables;
  const a = new Float64Array(REACH + 2);
  const b = new Float64Array(REACH + 2);
  const weight = (x: number) => (Math.abs(x) < 1 ? 1 - fade(Math.abs(x)) : 0);
  for (let k = 0; k <= REACH; k++) {
    const d = k / STEPS;
    for (let n = -STEPS; n < STEPS; n++) {
      const x = (n + 0.5) / STEPS;
      const both = (weight(x) * weight(x + d)) / STEPS;
      a[k] += x * (x + d) * both;
      b[k] += both;
    }
  }
  tables = { a, b };
  return tables;
}

/** The correlation of lattice noise with itself `d` cells further along s and `e` along t; 1 at (0, 0). */
export function noiseCorrelation(d: number, e: number): number {
  const { a, b } = correlationTables();
  const alongS = Math.min(REACH, Math.abs(d) * STEPS);
  const alongT = Math.min(REACH, Math.abs(e) * STEPS);
  const sum = between(a, alongS) * between(b, alongT) + between(b, alongS) * between(a, alongT);
  return sum / (2 * a[0] * b[0]);
}

function between(table: Float64Array, at: number): number {
  const k = Math.floor(at);
  return table[k] + (table[k + 1] - table[k]) * (at - k);
}

/** Points per side of a pixel over which the mean is taken. */
const POINTS = 16;

/**
 * What a sample of a noise must be multiplied by to stand for its mean over a pixel, in the sense of
 * least squares: 1 where cells are large, 0 where a pixel holds many.
 *
 * @param mmPerPixelX Width of the pixel.
 * @param mmPerPixelY Height of the pixel.
 */
export function pixelShare(cells: CellLattice, mmPerPixelX: number, mmPerPixelY: number): number {
  let sum = 0;
  for (let j = 0; j < POINTS; j++) {
    const y = ((j + 0.5) / POINTS - 0.5) * mmPerPixelY;
    for (let i = 0; i < POINTS; i++) {
      const x = ((i + 0.5) / POINTS - 0.5) * mmPerPixelX;
      sum += noiseCorrelation(cells.sx * x + cells.sy * y, cells.tx * x + cells.ty * y);
    }
  }
  return Math.max(0, sum / POINTS ** 2);
}

/** An octave fainter than this beside its full strength is not worth drawing. */
const LEAST_SHARE = 0.02;

/**
 * A fractal as pixels of this size show it: each octave at its `pixelShare`, the invisible ones left
 * out. Once per band: for a preview it is both truer and faster.
 */
export function fractalOnPixels(
  { octaves, gains }: FractalNoise,
  mmPerPixelX: number,
  mmPerPixelY: number,
): FractalNoise {
  const shares = octaves.map((octave) => pixelShare(octave, mmPerPixelX, mmPerPixelY));
  const kept = shares.map((share, k) => ({ share, k })).filter(({ share }) => share >= LEAST_SHARE);
  return { octaves: kept.map(({ k }) => octaves[k]), gains: kept.map(({ share, k }) => gains[k] * share) };
}
