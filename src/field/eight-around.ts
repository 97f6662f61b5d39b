import { cellIndex, type FieldShape } from './periodic.ts';

/** Steps to the eight cells around. */
const STEPS_X = [-1, 1, 0, 0, -1, 1, -1, 1];
const STEPS_Y = [0, 0, -1, 1, -1, -1, 1, 1];

/** 1 / mm from a cell's centre to that of each of the eight around it. */
export function inverseDistances({ mmPerCellX, mmPerCellY }: FieldShape): Float64Array {
  return Float64Array.from(STEPS_X, (i, n) => 1 / Math.hypot(i * mmPerCellX, STEPS_Y[n] * mmPerCellY));
}

/** The cells to the left, right, above and below, then the four at the corners. */
export function eightAround(shape: FieldShape, cell: number, to: Int32Array): void {
  const { width, height } = shape;
  const column = cell % width;
  const isInside = column > 0 && column < width - 1 && cell >= width && cell < width * (height - 1);
  const row = isInside ? 0 : (cell - column) / width;
  for (let n = 0; n < 8; n++) {
    to[n] = isInside
      ? cell + STEPS_X[n] + STEPS_Y[n] * width
      : cellIndex(shape, column + STEPS_X[n], row + STEPS_Y[n]);
  }
}

/** What is added to the number of a cell inside the box for each of the eight around it. */
export function stepsAround({ width }: FieldShape): Int32Array {
  return Int32Array.from(STEPS_X, (i, n) => i + STEPS_Y[n] * width);
}
