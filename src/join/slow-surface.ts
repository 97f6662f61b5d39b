import { select } from '../field/select.ts';
import type { LightCells } from './light-cells.ts';

/** A product of two Chebyshev polynomials, of degree `i` across and `j` down; never both 0. */
export interface Term {
  /** The degree across: how many times it may turn, at most. */
  readonly i: number;
  /** The degree down the page, a count as well. */
  readonly j: number;
}

/** The terms that turn no faster than `fastestX` and `fastestY` (degrees, not whole) allow together. */
export function slowTerms(fastestX: number, fastestY: number): Term[] {
  const terms: Term[] = [];
  for (let j = 0; j <= fastestY; j++)
    for (let i = 0; i <= fastestX; i++)
      if (i + j > 0 && (i / (fastestX || 1)) ** 2 + (j / (fastestY || 1)) ** 2 <= 1) terms.push({ i, j });
  return terms;
}

/** The Chebyshev polynomials of degree 0 to `most` at the middles of `count` places that fill -1..1: `[degree][place]`. */
export function polynomials(count: number, most: number): Float64Array[] {
  const x = Float64Array.from({ length: count }, (_, k) => (2 * k + 1) / count - 1);
  const rows = [new Float64Array(count).fill(1), x];
  for (let n = 2; n <= most; n++) rows.push(x.map((value, k) => 2 * value * rows[n - 1][k] - rows[n - 2][k]));
  return rows;
}

/** Fits that get ever stricter about what is an outlier. */
const ROUNDS = 16;
/** Amounts that move less than this from fit to fit (natural logarithm) move no sample of 8 bits any more. */
const STILL = 1e-4;
/** Of a normal distribution, this share of all lies within so many deviations of 0. */
const KERNEL = { share: 0.3, deviations: 0.3853 };
/** Two cells that differ by less than this (natural logarithm, 0.2 %) are the same to any scanner. */
const LEAST_DEVIATION = 0.002;
/** So many times what the two halves of the picture contradict each other by a field must reach. */
const BELIEVED = 3;

/**
 * The slow field in a picture's light, as amounts of the terms; nothing where it does not stand out.
 *
 * Two cells of the same paint differ by the light alone, whatever that paint is; two of different paint
 * differ by anything. So the field is fitted to the differences of pairs of cells, near ones and far ones,
 * and pairs that do not agree with the rest lose their say (Geman and McClure's weights, 1985, by
 * iterated least squares): motifs need neither be known nor be evenly strewn. It is believed only where
 * two halves of the picture agree on it, however it is halved (`PARTINGS`).
 */
export function fitSurface(cells: LightCells, terms: readonly Term[]): Float64Array | undefined {
  const lags = lagsOf(cells, terms);
  if (lags.length === 0 || terms.length === 0) return undefined;
  let amounts = new Float64Array(terms.length);
  for (let round = 0, moved = 1; round < ROUNDS && moved > STILL; round++) {
    const before = amounts;
    amounts = solve(sumsOf(terms, lags, before));
    moved = Math.max(...amounts.map((amount, k) => Math.abs(amount - before[k])));
  }
  const halves = PARTINGS.map((parting) => halfOf(cells, parting));
  const doubt = Math.max(...halves.map((half) => doubtOf(cells, terms, lags, amounts, half)));
  return spreadOf(cells, terms, amounts) > Math.max(BELIEVED * doubt, LEAST_DEVIATION / 2)
    ? amounts
    : undefined;
}

/**
 * All pairs of cells one lag apart, row by row. By how much a term differs between the two is the product of a
 * number for the column and one for the row, for one of its polynomials stays the same along a lag.
 */
interface Lag {
  /** Pairs across and down. */
  readonly across: number;
  readonly down: number;
  /** By how much the second cell of each pair is lighter; NaN where one shows next to nothing. */
  readonly differences: Float64Array;
  /** `[degree][column]` and `[degree][row]`. */
  readonly columns: readonly Float64Array[];
  readonly rows: readonly Float64Array[];
}

function lagsOf(cells: LightCells, terms: readonly Term[]): Lag[] {
  const { across, down } = cells;
  const lags: Lag[] = [];
  for (let lag = 1; lag < across; lag *= 2) lags.push(lagOf(cells, terms, lag, 0));
  for (let lag = 1; lag < down; lag *= 2) lags.push(lagOf(cells, terms, 0, lag));
  return lags.filter(({ differences }) => differences.some((difference) => !Number.isNaN(difference)));
}

function lagOf({ across, down, levels }: LightCells, terms: readonly Term[], dx: number, dy: number): Lag {
  const [wide, tall] = [across - dx, down - dy];
  const differences = new Float64Array(wide * tall);
  for (let y = 0, n = 0; y < tall; y++)
    for (let x = 0, cell = y * across; x < wide; x++, cell++, n++)
      differences[n] = levels[cell + dx + dy * across] - levels[cell];
  const along = (count: number, step: number, degree: number) =>
    polynomials(count, degree).map((values) =>
      Float64Array.from({ length: count - step }, (_, k) => values[k + step] - (step > 0 ? values[k] : 0)),
    );
  const columns = along(across, dx, highest(terms, 'i'));
  return { across: wide, down: tall, differences, columns, rows: along(down, dy, highest(terms, 'j')) };
}

function highest(terms: readonly Term[], side: 'i' | 'j'): number {
  return Math.max(1, ...terms.map((term) => term[side]));
}

/** Which half a place is in, as 0 or 1; `x` and `y` in sixths of the longer side. */
type Parting = (x: number, y: number) => number;

/** A chequer finds blotches out, upright and level stripes find stripes out. */
const PARTINGS: readonly Parting[] = [
  (x, y) => (Math.floor(x) + Math.floor(y)) % 2,
  (x) => Math.floor(x) % 2,
  (_, y) => Math.floor(y) % 2,
];

/** Of each cell the half it is in. */
type Halves = (x: number, y: number) => number;

function halfOf({ across, down }: LightCells, parting: Parting): Halves {
  const part = Math.max(across, down) / 6;
  return (x, y) => parting(x / part, y / part);
}

/** By how much the fields of the two halves are off their mean: root mean square. */
function doubtOf(
  cells: LightCells,
  terms: readonly Term[],
  lags: readonly Lag[],
  amounts: Float64Array,
  halves: Halves,
): number {
  const [one, other] = [0, 1].map((half) =>
    solve(sumsOf(terms, lags, amounts, (x, y) => halves(x, y) === half)),
  );
  const apart = one.map((amount, k) => (amount - other[k]) / 2);
  return spreadOf(cells, terms, apart);
}

/** Normal equations. */
interface Sums {
  readonly matrix: Float64Array;
  readonly right: Float64Array;
}

/** @param takes Whether the pair whose first cell is there has a say. */
function sumsOf(
  terms: readonly Term[],
  lags: readonly Lag[],
  amounts: Float64Array,
  takes: (x: number, y: number) => boolean = () => true,
): Sums {
  const count = terms.length;
  const sums = { matrix: new Float64Array(count * count), right: new Float64Array(count) };
  for (const lag of lags) {
    const residuals = residualsOf(terms, lag, amounts);
    const variance = kernelDeviation(residuals) ** 2;
    const weights = new Float64Array(lag.across);
    for (let y = 0, n = 0; y < lag.down; y++) {
      for (let x = 0; x < lag.across; x++, n++) {
        const off = 1 + residuals[n] ** 2 / (4 * variance);
        weights[x] = Number.isNaN(off) || !takes(x, y) ? 0 : 1 / (off * off * variance);
      }
      addRow(terms, lag, y, weights, sums);
    }
  }
  return sums;
}

function residualsOf(terms: readonly Term[], lag: Lag, amounts: Float64Array): Float64Array {
  const { across, down, columns, rows } = lag;
  const residuals = lag.differences.slice();
  const share = new Float64Array(columns.length);
  for (let y = 0; y < down; y++) {
    share.fill(0);
    for (const [k, { i, j }] of terms.entries()) share[i] += amounts[k] * rows[j][y];
    for (const [i, column] of columns.entries())
      for (let x = 0, n = y * across; x < across; x++, n++) residuals[n] -= share[i] * column[x];
  }
  return residuals;
}

/** Adds a row's pairs: sums over columns first, for all terms of the same two degrees across share them. */
function addRow(terms: readonly Term[], lag: Lag, y: number, weights: Float64Array, sums: Sums): void {
  const { columns, rows, across } = lag;
  const count = terms.length;
  const most = columns.length;
  const squares = new Float64Array(most * most);
  const firsts = new Float64Array(most);
  const weighted = new Float64Array(across);
  for (let i = 0; i < most; i++) {
    for (let x = 0; x < across; x++) weighted[x] = weights[x] * columns[i][x];
    for (let x = 0, n = y * across; x < across; x++, n++)
      if (weights[x] > 0) firsts[i] += weighted[x] * lag.differences[n];
    for (let l = 0; l <= i; l++) {
      let sum = 0;
      for (let x = 0; x < across; x++) sum += weighted[x] * columns[l][x];
      squares[i * most + l] = squares[l * most + i] = sum;
    }
  }
  for (const [k, { i, j }] of terms.entries()) {
    const height = rows[j][y];
    sums.right[k] += height * firsts[i];
    for (let l = 0; l <= k; l++)
      sums.matrix[k * count + l] += height * rows[terms[l].j][y] * squares[i * most + terms[l].i];
  }
}

/** The deviation of the pairs that agree, however many others there are: from those nearest to 0. */
function kernelDeviation(residuals: Float64Array): number {
  const known = new Float64Array(residuals.length);
  let count = 0;
  for (const residual of residuals) if (!Number.isNaN(residual)) known[count++] = Math.abs(residual);
  const nearest = select(known.subarray(0, count), Math.floor(count * KERNEL.share));
  return Math.max(LEAST_DEVIATION, nearest / KERNEL.deviations);
}

/** By Cholesky's factors, a hair of ridge against terms that the cells do not tell apart. */
function solve({ matrix, right }: Sums): Float64Array<ArrayBuffer> {
  const count = right.length;
  const lower = matrix.slice();
  const x = new Float64Array(right);
  for (let k = 0; k < count; k++) lower[k * count + k] = lower[k * count + k] * (1 + 1e-9) + 1e-9;
  for (let k = 0; k < count; k++) {
    for (let l = 0; l <= k; l++) {
      let sum = lower[k * count + l];
      for (let m = 0; m < l; m++) sum -= lower[k * count + m] * lower[l * count + m];
      lower[k * count + l] = l === k ? Math.sqrt(Math.max(sum, 1e-12)) : sum / lower[l * count + l];
    }
    for (let m = 0; m < k; m++) x[k] -= lower[k * count + m] * x[m];
    x[k] /= lower[k * count + k];
  }
  for (let k = count - 1; k >= 0; k--) {
    for (let m = k + 1; m < count; m++) x[k] -= lower[m * count + k] * x[m];
    x[k] /= lower[k * count + k];
  }
  return x;
}

/** Root mean square of a field about its mean, over all cells. */
function spreadOf({ across, down }: LightCells, terms: readonly Term[], amounts: Float64Array): number {
  const columns = polynomials(across, highest(terms, 'i'));
  const rows = polynomials(down, highest(terms, 'j'));
  const share = new Float64Array(columns.length);
  let [sum, squares] = [0, 0];
  for (let y = 0; y < down; y++) {
    share.fill(0);
    for (const [k, { i, j }] of terms.entries()) share[i] += amounts[k] * rows[j][y];
    for (let x = 0; x < across; x++) {
      let value = 0;
      for (let i = 0; i < share.length; i++) value += share[i] * columns[i][x];
      sum += value;
      squares += value * value;
    }
  }
  const count = across * down;
  return Math.sqrt(Math.max(0, squares / count - (sum / count) ** 2));
}
