/** A plane of cells that repeats: `width` x `height` of them, each next column of copies `shear` cells lower. */
export interface CellTorus {
  readonly width: number;
  readonly height: number;
  /** Cells, 0 <= shear < height. */
  readonly shear: number;
}

/** A bell in whole numbers, so that what is added is taken away again to the last bit. */
export interface Bell {
  /** Cells from the middle to the edge. */
  readonly radius: number;
  /** `(2 radius + 1)^2` weights, row by row. */
  readonly weights: Int32Array;
}

/** The weight in the middle: the sum over a pattern whose bell fits its density stays far below 2^31. */
const PEAK = 2 ** 20;
/** A bell ends where its weight is 1/3000 of the middle's. */
const DEVIATIONS = 4;

/** The bell of a standard deviation in cells; it reaches no further than `most` cells. */
export function bellOf(deviation: number, most: number): Bell {
  const radius = Math.max(1, Math.min(Math.ceil(DEVIATIONS * deviation), most));
  const side = 2 * radius + 1;
  const weights = new Int32Array(side * side);
  for (let y = -radius; y <= radius; y++)
    for (let x = -radius; x <= radius; x++)
      weights[(y + radius) * side + x + radius] = Math.round(
        PEAK * Math.exp(-(x * x + y * y) / (2 * deviation * deviation)),
      );
  return { radius, weights };
}

/** Adds `sign` times a bell around a cell to `energy`, and names every run of cells that it touches. */
export function addBell(
  { width, height, shear }: CellTorus,
  { radius, weights }: Bell,
  cell: number,
  sign: 1 | -1,
  energy: Int32Array,
  touch: (from: number, to: number) => void,
): void {
  const column = cell % width;
  const row = (cell - column) / width;
  const side = 2 * radius + 1;
  for (let dy = -radius; dy <= radius; dy++) {
    let weight = (dy + radius) * side;
    let left = side;
    let x = column - radius;
    while (left > 0) {
      const copy = Math.floor(x / width);
      const from = x - copy * width;
      const count = Math.min(left, width - from);
      const start = wrap(row + dy - copy * shear, height) * width + from;
      for (let k = 0; k < count; k++) energy[start + k] += sign * weights[weight + k];
      touch(start, start + count);
      weight += count;
      left -= count;
      x += count;
    }
  }
}

function wrap(value: number, size: number): number {
  return value - Math.floor(value / size) * size;
}
