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
  const pairs = pairsOf(cells);
  if (pairs.length === 0 || terms.length === 0) return undefined;
  const basis = basisOf(cells, terms);
  const fit: Fit = { cells, basis, count: terms.length };
  let amounts = new Float64Array(terms.length);
  for (let round = 0; round < ROUNDS; round++) amounts = solve(sumsOf(fit, pairs, amounts));
  const doubt = Math.max(...PARTINGS.map((parting) => doubtOf(fit, pairs, amounts, parting)));
  return spreadOf(fit, amounts) > Math.max(BELIEVED * doubt, LEAST_DEVIATION / 2) ? amounts : undefined;
}

interface Fit {
  readonly cells: LightCells;
  /** `count` numbers for each cell. */
  readonly basis: Float64Array;
  readonly count: number;
}

/** Pairs of cells one lag apart. */
interface Pairs {
  readonly first: Int32Array;
  readonly second: Int32Array;
}

function pairsOf({ across, down, levels }: LightCells): Pairs[] {
  const lags: [number, number][] = [];
  for (let lag = 1; lag < across; lag *= 2) lags.push([lag, 0]);
  for (let lag = 1; lag < down; lag *= 2) lags.push([0, lag]);
  return lags.flatMap(([dx, dy]) => {
    const first: number[] = [];
    for (let y = 0; y + dy < down; y++)
      for (let x = 0; x + dx < across; x++) {
        const cell = x + y * across;
        if (!Number.isNaN(levels[cell] + levels[cell + dx + dy * across])) first.push(cell);
      }
    const second = first.map((cell) => cell + dx + dy * across);
    return first.length === 0 ? [] : [{ first: Int32Array.from(first), second: Int32Array.from(second) }];
  });
}

function basisOf({ across, down }: LightCells, terms: readonly Term[]): Float64Array {
  const most = Math.max(...terms.flatMap(({ i, j }) => [i, j]), 1);
  const [columns, rows] = [polynomials(across, most), polynomials(down, most)];
  const basis = new Float64Array(across * down * terms.length);
  for (let cell = 0; cell < across * down; cell++)
    for (const [k, { i, j }] of terms.entries())
      basis[cell * terms.length + k] = columns[i][cell % across] * rows[j][Math.floor(cell / across)];
  return basis;
}

/** Which half a place is in, as 0 or 1; `x` and `y` in sixths of the longer side. */
type Parting = (x: number, y: number) => number;

/** A chequer finds blotches out, upright and level stripes find stripes out. */
const PARTINGS: readonly Parting[] = [
  (x, y) => (Math.floor(x) + Math.floor(y)) % 2,
  (x) => Math.floor(x) % 2,
  (_, y) => Math.floor(y) % 2,
];

/** By how much the fields of the two halves are off their mean: root mean square. */
function doubtOf(fit: Fit, pairs: readonly Pairs[], amounts: Float64Array, parting: Parting): number {
  const { across, down } = fit.cells;
  const part = Math.max(across, down) / 6;
  const halfOf = (cell: number) => parting((cell % across) / part, Math.floor(cell / across) / part);
  const [one, other] = [0, 1].map((half) =>
    solve(sumsOf(fit, pairs, amounts, (cell) => halfOf(cell) === half)),
  );
  return spreadOf(
    fit,
    one.map((amount, k) => (amount - other[k]) / 2),
  );
}

/** Normal equations. */
interface Sums {
  readonly matrix: Float64Array;
  readonly right: Float64Array;
}

function sumsOf(
  { cells: { levels }, basis, count }: Fit,
  pairs: readonly Pairs[],
  amounts: Float64Array,
  takes: (cell: number) => boolean = () => true,
): Sums {
  const matrix = new Float64Array(count * count);
  const right = new Float64Array(count);
  const slope = new Float64Array(count);
  for (const { first, second } of pairs) {
    const residuals = new Float64Array(first.length);
    for (let n = 0; n < first.length; n++) {
      let expected = 0;
      const [a, b] = [first[n] * count, second[n] * count];
      for (let k = 0; k < count; k++) expected += amounts[k] * (basis[b + k] - basis[a + k]);
      residuals[n] = levels[second[n]] - levels[first[n]] - expected;
    }
    const variance = kernelDeviation(residuals) ** 2;
    for (let n = 0; n < first.length; n++) {
      if (!takes(first[n])) continue;
      const weight = (1 + residuals[n] ** 2 / (4 * variance)) ** -2 / variance;
      const [a, b] = [first[n] * count, second[n] * count];
      for (let k = 0; k < count; k++) slope[k] = basis[b + k] - basis[a + k];
      const difference = weight * (levels[second[n]] - levels[first[n]]);
      for (let k = 0; k < count; k++) {
        right[k] += difference * slope[k];
        const scaled = weight * slope[k];
        for (let l = 0; l <= k; l++) matrix[k * count + l] += scaled * slope[l];
      }
    }
  }
  return { matrix, right };
}

/** The deviation of the pairs that agree, however many others there are: from those nearest to 0. */
function kernelDeviation(residuals: Float64Array): number {
  const sorted = residuals.map(Math.abs).sort();
  return Math.max(LEAST_DEVIATION, sorted[Math.floor(sorted.length * KERNEL.share)] / KERNEL.deviations);
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
function spreadOf({ basis, count }: Fit, amounts: Float64Array): number {
  const cells = basis.length / count;
  let [sum, squares] = [0, 0];
  for (let at = 0; at < basis.length; at += count) {
    let value = 0;
    for (let k = 0; k < count; k++) value += amounts[k] * basis[at + k];
    sum += value;
    squares += value * value;
  }
  return Math.sqrt(Math.max(0, squares / cells - (sum / cells) ** 2));
}
