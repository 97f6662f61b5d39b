import { Fault } from '../fault.ts';
import { cellIndex, type PeriodicField } from './periodic.ts';

/** The largest part of a cell's surplus that may pass to one neighbour in a step and keep the maximum principle. */
const LARGEST_SHARE = 0.25;

/**
 * The field after diffusing for a unit of time, with a diffusivity that may differ from place to place:
 * u_t = div(D grad u). The sum is kept and nothing comes out above the largest or below the least value.
 *
 * Explicit five-point steps over the repeat, as many as the largest diffusivity needs (a share of at most
 * 1/4 per side). Where D is even, a wave of frequency f is multiplied by about exp(-4 pi^2 f^2 D): a
 * Gaussian blur of standard deviation sqrt(2 D).
 *
 * @param diffusivity Per cell, mm2; 0 or more. A side between two cells has their mean.
 * @throws Fault (effect) where `diffusivity` is not one finite number of 0 or more per cell.
 */
export function diffuse(field: PeriodicField, diffusivity: Float32Array): PeriodicField {
  const { width, height, mmPerCellX, mmPerCellY } = field;
  const largest = largestOf(diffusivity, width * height);
  const least = Math.min(mmPerCellX, mmPerCellY);
  const steps = Math.ceil(largest / (LARGEST_SHARE * least * least));
  if (steps === 0) return { ...field, values: field.values.slice() };
  const right = sideShares(field, diffusivity, 1, 0, 1 / (steps * mmPerCellX * mmPerCellX));
  const below = sideShares(field, diffusivity, 0, 1, 1 / (steps * mmPerCellY * mmPerCellY));
  let from = field.values;
  let to = new Float32Array(from.length);
  let spare = new Float32Array(from.length);
  for (let step = 0; step < steps; step++) {
    stepOnce({ ...field, values: from }, right, below, to);
    from = to;
    [to, spare] = [spare, to];
  }
  return { ...field, values: from };
}

function largestOf(diffusivity: Float32Array, cells: number): number {
  let largest = 0;
  let isSound = diffusivity.length === cells;
  for (let k = 0; k < diffusivity.length; k++) {
    if (!(diffusivity[k] >= 0 && diffusivity[k] < Number.POSITIVE_INFINITY)) isSound = false;
    if (diffusivity[k] > largest) largest = diffusivity[k];
  }
  if (isSound) return largest;
  throw new Fault({
    kind: 'effect',
    expected: `${cells} finite numbers of 0 or more`,
    subject: 'a diffusivity',
    received: `${diffusivity.length}, or some that are not`,
    remedy: 'Bake it on the same shape and limit it from below.',
  });
}

/** Per cell the share of the difference that passes over its side to the right or below in a step. */
function sideShares(
  field: PeriodicField,
  diffusivity: Float32Array,
  i: number,
  j: number,
  scale: number,
): Float32Array {
  const { width, height } = field;
  const shares = new Float32Array(width * height);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const cell = column + row * width;
      const isInside = column + i < width && row + j < height;
      const next = isInside ? cell + i + j * width : cellIndex(field, column + i, row + j);
      shares[cell] = 0.5 * scale * (diffusivity[cell] + diffusivity[next]);
    }
  }
  return shares;
}

function stepOnce(field: PeriodicField, right: Float32Array, below: Float32Array, to: Float32Array): void {
  const { values, width, height } = field;
  for (let row = 0; row < height; row++) {
    const start = row * width;
    const isInside = row > 0 && row < height - 1;
    for (let column = 0; column < width; column++) {
      const k = start + column;
      let [l, r, a, b] = [k - 1, k + 1, k - width, k + width];
      if (!isInside || column === 0 || column === width - 1) {
        l = cellIndex(field, column - 1, row);
        r = cellIndex(field, column + 1, row);
        a = cellIndex(field, column, row - 1);
        b = cellIndex(field, column, row + 1);
      }
      const here = values[k];
      to[k] =
        here +
        right[k] * (values[r] - here) +
        right[l] * (values[l] - here) +
        below[k] * (values[b] - here) +
        below[a] * (values[a] - here);
    }
  }
}
