import { lineTransform } from './fourier-line.ts';
import type { FieldShape, PeriodicField } from './periodic.ts';

/**
 * A field as a sum of waves that each close over its repeat. Plain data.
 *
 * Wave (p, q) has the frequency `frequencyOf(spectrum, p, q)` and the complex amplitude at
 * 2 * (p + q * width) of `waves` (real part, then imaginary part). The amplitude of wave (0, 0) is the
 * field's mean; the squared moduli sum to its mean square (Parseval). Phases are reckoned from the
 * centre of cell (0, 0).
 */
export interface Spectrum extends FieldShape {
  /** `2 * width * height` numbers, two per wave: real part, then imaginary part, in units of the field. */
  readonly waves: Float64Array;
}

/** A frequency in cycles per mm, across and down the page. */
export interface Frequency {
  /** Cycles per mm to the right; below 0 for waves that fall the other way. */
  readonly x: number;
  /** Cycles per mm down the page. */
  readonly y: number;
}

/**
 * The frequency of wave (p, q), the one nearest to zero of all that look alike on the grid.
 *
 * A wave closes where its phase gains whole turns over both lattice vectors: under a drop its
 * frequency is ((p - q*ay/by) / ax, q / by) per cell; under a brick offset the axes change places.
 */
export function frequencyOf(shape: FieldShape, p: number, q: number): Frequency {
  const { ax, ay, bx, by } = shape.lattice;
  return {
    x: fold((p - (q * ay) / by) / ax) / shape.mmPerCellX,
    y: fold((q - (p * bx) / ax) / by) / shape.mmPerCellY,
  };
}

function fold(cyclesPerCell: number): number {
  return cyclesPerCell - Math.round(cyclesPerCell);
}

/** The waves of a field. Any size; sides of a power of two times a small number are fastest. */
export function forwardTransform(field: PeriodicField): Spectrum {
  const { values, ...shape } = field;
  const waves = new Float64Array(2 * values.length);
  for (let k = 0; k < values.length; k++) waves[2 * k] = values[k] / values.length;
  if (shape.lattice.bx === 0) {
    transformColumns(shape, waves, 1);
    shearRows(shape, waves, 1);
    transformRows(shape, waves, 1);
  } else {
    transformRows(shape, waves, 1);
    shearColumns(shape, waves, 1);
    transformColumns(shape, waves, 1);
  }
  return { ...shape, waves };
}

/** The field of these waves: the real part, where they do not come from a real field. */
export function inverseTransform(spectrum: Spectrum): PeriodicField {
  const { waves, ...shape } = spectrum;
  const sums = waves.slice();
  if (shape.lattice.bx === 0) {
    transformRows(shape, sums, -1);
    shearRows(shape, sums, -1);
    transformColumns(shape, sums, -1);
  } else {
    transformColumns(shape, sums, -1);
    shearColumns(shape, sums, -1);
    transformRows(shape, sums, -1);
  }
  const values = new Float32Array(shape.width * shape.height);
  for (let k = 0; k < values.length; k++) values[k] = sums[2 * k];
  return { ...shape, values };
}

/**
 * The field with each wave made stronger or weaker.
 *
 * @param factor Of a frequency in cycles per mm. Must be even: `factor(-fx, -fy) = factor(fx, fy)`.
 */
export function filterField(field: PeriodicField, factor: (fx: number, fy: number) => number): PeriodicField {
  const spectrum = forwardTransform(field);
  const { waves, width, height } = spectrum;
  for (let q = 0; q < height; q++) {
    for (let p = 0; p < width; p++) {
      const { x, y } = frequencyOf(spectrum, p, q);
      const times = factor(x, y);
      waves[2 * (p + q * width)] *= times;
      waves[2 * (p + q * width) + 1] *= times;
    }
  }
  return inverseTransform(spectrum);
}

/** 1 is forward; -1 is back, unscaled. */
type Sense = 1 | -1;

/** Under a drop a row of waves q does not repeat after `width` cells but turns by q*ay/by: takes that turn out or puts it in. */
function shearRows({ width, height, lattice }: FieldShape, waves: Float64Array, sense: Sense): void {
  if (lattice.ay === 0) return;
  for (let q = 0; q < height; q++) {
    for (let x = 0; x < width; x++) {
      // Exact whole numbers until the last division: a large turn keeps its digits.
      const turn = ((q * lattice.ay * x) % (width * height)) / (width * height);
      rotate(waves, x + q * width, sense * turn);
    }
  }
}

/** The same for a brick offset, with the axes in each other's place. */
function shearColumns({ width, height, lattice }: FieldShape, waves: Float64Array, sense: Sense): void {
  for (let y = 0; y < height; y++) {
    for (let p = 0; p < width; p++) {
      const turn = ((p * lattice.bx * y) % (width * height)) / (width * height);
      rotate(waves, p + y * width, sense * turn);
    }
  }
}

function rotate(waves: Float64Array, at: number, turn: number): void {
  const c = Math.cos(2 * Math.PI * turn);
  const s = Math.sin(2 * Math.PI * turn);
  const re = waves[2 * at];
  const im = waves[2 * at + 1];
  waves[2 * at] = re * c - im * s;
  waves[2 * at + 1] = re * s + im * c;
}

function transformRows({ width, height }: FieldShape, waves: Float64Array, sense: Sense): void {
  const transform = lineTransform(width);
  for (let y = 0; y < height; y++) {
    const row = waves.subarray(2 * y * width, 2 * (y + 1) * width);
    if (sense < 0) conjugate(row);
    transform(row);
    if (sense < 0) conjugate(row);
  }
}

function conjugate(line: Float64Array): void {
  for (let k = 1; k < line.length; k += 2) line[k] = -line[k];
}

/** Columns gathered side by side: reading one by one would fetch the same memory once for each. */
const COLUMNS_AT_ONCE = 8;

function transformColumns({ width, height }: FieldShape, waves: Float64Array, sense: Sense): void {
  const transform = lineTransform(height);
  const lines = Array.from({ length: COLUMNS_AT_ONCE }, () => new Float64Array(2 * height));
  for (let first = 0; first < width; first += COLUMNS_AT_ONCE) {
    const count = Math.min(COLUMNS_AT_ONCE, width - first);
    for (let y = 0; y < height; y++) {
      for (let k = 0; k < count; k++) {
        const at = 2 * (first + k + y * width);
        lines[k][2 * y] = waves[at];
        lines[k][2 * y + 1] = sense * waves[at + 1];
      }
    }
    for (let k = 0; k < count; k++) transform(lines[k]);
    for (let y = 0; y < height; y++) {
      for (let k = 0; k < count; k++) {
        const at = 2 * (first + k + y * width);
        waves[at] = lines[k][2 * y];
        waves[at + 1] = sense * lines[k][2 * y + 1];
      }
    }
  }
}
