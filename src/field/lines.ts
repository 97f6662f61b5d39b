import { cellIndex, type FieldShape } from './periodic.ts';

/**
 * The closed lines that the cells of a field form along one axis. Under a drop of p/q a row runs on,
 * past its end, as another row, until after q rows it meets itself: `count` loops of `length` cells.
 * Columns under a brick offset do the same; all other lines are single rows or columns.
 */
export interface FieldLines {
  /** How many loops. */
  readonly count: number;
  /** Cells of each loop. */
  readonly length: number;
  /** Line n holds the cells from `cells[n * length]` on, each followed by its neighbour right or below. */
  readonly cells: Int32Array;
}

/** The lines of a field along x (to the right) or y (downward). */
export function linesAlong(shape: FieldShape, axis: 'x' | 'y'): FieldLines {
  const { width, height } = shape;
  const side = axis === 'x' ? width : height;
  const starts = axis === 'x' ? height : width;
  const cells = new Int32Array(width * height);
  const isTaken = new Uint8Array(starts);
  let filled = 0;
  let length = 0;
  for (let start = 0; start < starts; start++) {
    if (isTaken[start]) continue;
    const before = filled;
    for (let at = start; !isTaken[at]; at = nextStart(shape, axis, at)) {
      isTaken[at] = 1;
      for (let k = 0; k < side; k++) cells[filled++] = axis === 'x' ? at * width + k : k * width + at;
    }
    length = filled - before;
  }
  return { count: cells.length / length, length, cells };
}

/** The row (or column) on which the line runs on past the end of row (or column) `start`. */
function nextStart(shape: FieldShape, axis: 'x' | 'y', start: number): number {
  return axis === 'x'
    ? Math.floor(cellIndex(shape, shape.width, start) / shape.width)
    : cellIndex(shape, start, shape.height) % shape.width;
}
