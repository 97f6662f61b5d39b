import { fullSample } from '../colour/samples.ts';
import { LINEAR_OF_BYTE, linearOfShortTable } from '../colour/srgb.ts';
import type { PixelFinder } from '../repeat/fold.ts';
import { LEAST_REFLECTANCE } from './load.ts';
import type { Pixels } from './working.ts';

/**
 * The artwork seen softly, on coarser cells. R, G, B and alpha per cell: the amounts of paint as
 * `tone`, 65535 for white and 0 for `LEAST_REFLECTANCE`, even steps of absorbance between, for
 * paints that run together mix by amount (Beer-Lambert: absorbances add, not light). Premultiplied
 * by cover, so that sums over cells need no other weights.
 */
export interface SoftLevel {
  readonly samples: Uint16Array;
  readonly width: number;
  readonly height: number;
  /** Finds the cells beyond its edges. */
  readonly find: PixelFinder;
}

/** Tones from the least reflectance to white. */
const TONES = 65_535;
const LEAST_LOGARITHM = Math.log2(LEAST_REFLECTANCE);
/** Binary logarithm of light per tone. */
export const OCTAVES_PER_TONE = -LEAST_LOGARITHM / TONES;

/** The tone of linear light whose binary logarithm is given. */
export function toneOfLogarithm(logarithm: number): number {
  return TONES + logarithm / OCTAVES_PER_TONE;
}

/** The binary logarithm of the linear light of a tone. */
export function logarithmOfTone(tone: number): number {
  return (tone - TONES) * OCTAVES_PER_TONE;
}

/**
 * The spread of a level, with what its reading between cells adds, in cells: one, so that each level
 * is twice as soft as the one before.
 */
const SPREAD_CELLS = 1;
/** What a quadratic spline between cells adds to the variance, in cells squared: three unit boxes give 3 / 12. */
const SPLINE_VARIANCE = 1 / 4;
/** Beyond so many deviations the Gaussian is cut off; 1.2 % of it lies outside. */
const REACH = 2.5;

/**
 * The spread to add to the artwork for the first level, in cells of that level; and to each level for
 * the next, whose cells are twice as wide: variances add.
 */
const FIRST_SPREAD = Math.sqrt(SPREAD_CELLS ** 2 - SPLINE_VARIANCE);
const NEXT_SPREAD = Math.sqrt((SPREAD_CELLS ** 2 - SPLINE_VARIANCE) * (1 - 1 / 4));

/** A picture to be softened: the artwork itself, or a level of it. */
export interface SoftSource {
  readonly kind: 'artwork' | 'level';
  readonly pixels: Pixels;
  readonly width: number;
  readonly height: number;
  readonly find: PixelFinder;
}

/**
 * Fills some rows of a level from the picture before it: a Gaussian over amounts of paint, weighted
 * by alpha. Rows do not depend on each other, so any number of workers may share them.
 *
 * @param to       Its cells are about twice as wide and high as those of `from`.
 * @param firstRow Of `to`.
 */
export function softenRows(from: SoftSource, to: SoftLevel, firstRow: number, rows: number): void {
  const spread = from.kind === 'artwork' ? FIRST_SPREAD : NEXT_SPREAD;
  const across = gaussianShares(from.width, to.width, spread);
  const down = gaussianShares(from.height, to.height, spread);
  const margin = across.margin;
  const tones = from.kind === 'artwork' ? tonesOfSamples(from.pixels) : undefined;
  const gathered = new Float32Array((from.width + 2 * margin) * 4);
  for (let row = firstRow; row < firstRow + rows; row++) {
    gathered.fill(0);
    for (let tap = 0; tap < down.taps; tap++) {
      const share = down.shares[row * down.taps + tap];
      gatherRow(from, tones, down.first[row] + tap, margin, share, gathered);
    }
    thinOut(gathered, across, to, row);
  }
}

/** Where each cell's Gaussian begins in the finer picture, and its shares, which sum to 1. */
interface AxisShares {
  readonly first: Int32Array;
  readonly shares: Float32Array;
  readonly taps: number;
  /** How far it reaches beyond the ends. */
  readonly margin: number;
}

function gaussianShares(from: number, to: number, spreadCells: number): AxisShares {
  const step = from / to;
  const spread = spreadCells * step;
  const taps = Math.floor(2 * REACH * spread) + 1;
  const first = new Int32Array(to);
  const shares = new Float32Array(to * taps);
  for (let cell = 0; cell < to; cell++) {
    const centre = (cell + 0.5) * step - 0.5;
    first[cell] = Math.ceil(centre - REACH * spread);
    let sum = 0;
    for (let tap = 0; tap < taps; tap++) {
      const deviations = Math.abs(first[cell] + tap - centre) / spread;
      // What lies beyond the reach counts on neither side, so that a mirrored picture is softened alike.
      const share = deviations <= REACH ? Math.exp(-(deviations ** 2) / 2) : 0;
      shares[cell * taps + tap] = share;
      sum += share;
    }
    for (let tap = 0; tap < taps; tap++) shares[cell * taps + tap] /= sum;
  }
  return { first, shares, taps, margin: taps };
}

/** Adds a row of the picture, any row of the plane, with columns beyond both its ends. */
function gatherRow(
  from: SoftSource,
  tones: Float32Array | undefined,
  row: number,
  margin: number,
  share: number,
  gathered: Float32Array,
): void {
  const { width, height, find } = from;
  const addTo = (column: number, count: number, first: number): void => {
    const room = gathered.subarray((column + margin) * 4);
    if (tones) addArtwork(from.pixels, tones, first * 4, count, share, room);
    else addLevel(from.pixels, first * 4, count, share, room);
  };
  const isInside = row >= 0 && row < height;
  const [start, end] = isInside ? [0, width] : [width, width];
  for (let column = -margin; column < start; column++) addTo(column, 1, find(column, row));
  if (isInside) addTo(0, width, row * width);
  for (let column = end; column < width + margin; column++) addTo(column, 1, find(column, row));
}

/** Adds tones times cover of `count` pixels of the artwork, and cover as the levels hold it. */
function addArtwork(
  pixels: Pixels,
  tones: Float32Array,
  first: number,
  count: number,
  share: number,
  gathered: Float32Array,
): void {
  const whole = share / fullSample(pixels);
  for (let to = 0, from = first; to < count * 4; to += 4, from += 4) {
    const weight = whole * pixels[from + 3];
    gathered[to] += weight * tones[pixels[from]];
    gathered[to + 1] += weight * tones[pixels[from + 1]];
    gathered[to + 2] += weight * tones[pixels[from + 2]];
    gathered[to + 3] += weight * TONES;
  }
}

function addLevel(pixels: Pixels, first: number, count: number, share: number, gathered: Float32Array): void {
  for (let to = 0, from = first; to < count * 4; to++, from++) gathered[to] += share * pixels[from];
}

/** Writes a row of cells from gathered columns. */
function thinOut(gathered: Float32Array, across: AxisShares, to: SoftLevel, row: number): void {
  const { first, shares, taps, margin } = across;
  for (let cell = 0; cell < to.width; cell++) {
    let red = 0;
    let green = 0;
    let blue = 0;
    let cover = 0;
    for (let tap = 0, at = (first[cell] + margin) * 4; tap < taps; tap++, at += 4) {
      const share = shares[cell * taps + tap];
      red += share * gathered[at];
      green += share * gathered[at + 1];
      blue += share * gathered[at + 2];
      cover += share * gathered[at + 3];
    }
    const index = (row * to.width + cell) * 4;
    to.samples[index] = Math.min(red, TONES) + 0.5;
    to.samples[index + 1] = Math.min(green, TONES) + 0.5;
    to.samples[index + 2] = Math.min(blue, TONES) + 0.5;
    to.samples[index + 3] = Math.min(cover, TONES) + 0.5;
  }
}

const TABLES: { bytes?: Float32Array; shorts?: Float32Array } = {};

/** The tone of every sample of a picture's kind; made at the first call. */
function tonesOfSamples(pixels: Pixels): Float32Array {
  if (pixels.BYTES_PER_ELEMENT === 1) {
    TABLES.bytes ??= LINEAR_OF_BYTE.map(toneOfLinear);
    return TABLES.bytes;
  }
  TABLES.shorts ??= linearOfShortTable().map(toneOfLinear);
  return TABLES.shorts;
}

function toneOfLinear(linear: number): number {
  return toneOfLogarithm(Math.log2(Math.max(linear, LEAST_REFLECTANCE)));
}
