import { type Lattice, wrapPoint } from '../repeat/lattice.ts';
import type { Box } from '../repeat/repeat.ts';
import { homeCell } from './home-cell.ts';
import { cellIndex, type FieldShape, fieldShape } from './periodic.ts';
import type { PointSet } from './poisson.ts';

/** A rectangle of the plane, mm: left <= x < right, top <= y < bottom. */
export interface Rectangle {
  /** mm; belongs to it. */
  readonly left: number;
  /** mm; belongs to it. */
  readonly top: number;
  /** mm; the first place beyond. */
  readonly right: number;
  /** mm; the first place beyond. */
  readonly bottom: number;
}

/**
 * Calls `visit` with every copy of the point (x, y) that stands in the rectangle, column by column
 * (under a brick offset row by row). For what is stamped: widen the rectangle by the stamp's reach.
 *
 * @param lattice In mm.
 */
export function visitCopies(
  { ax, ay, bx, by }: Lattice,
  x: number,
  y: number,
  { left, top, right, bottom }: Rectangle,
  visit: (x: number, y: number) => void,
): void {
  if (bx === 0) {
    for (let m = Math.ceil((left - x) / ax); x + m * ax < right; m++) {
      const start = y + m * ay;
      for (let n = Math.ceil((top - start) / by); start + n * by < bottom; n++) {
        visit(x + m * ax, start + n * by);
      }
    }
    return;
  }
  for (let n = Math.ceil((top - y) / by); y + n * by < bottom; n++) {
    const start = x + n * bx;
    for (let m = Math.ceil((left - start) / ax); start + m * ax < right; m++) {
      visit(start + m * ax, y + n * by);
    }
  }
}

/** Points sorted into cells, to find those near a place without looking at all. Plain data. */
export interface PointIndex {
  /** The cells that the points are sorted into. */
  readonly shape: FieldShape;
  /** The repeat's vectors in mm. */
  readonly lattice: Lattice;
  /** Of each point across the page in mm, brought home into the box. */
  readonly x: Float64Array;
  /** Of each point down the page in mm, brought home into the box. */
  readonly y: Float64Array;
  /** The points of cell k are `order[starts[k]]` up to `order[starts[k + 1] - 1]`. */
  readonly starts: Int32Array;
  /** The numbers of the points, cell by cell. */
  readonly order: Int32Array;
}

/** Sorts points, anywhere on the plane, into cells that hold one or two each. */
export function indexPoints(box: Box, points: PointSet): PointIndex {
  const count = points.x.length;
  const shape = fieldShape(box, Math.sqrt((1.5 * box.width * box.height) / Math.max(1, count)));
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  const cells = new Int32Array(count);
  const starts = new Int32Array(shape.width * shape.height + 1);
  for (let k = 0; k < count; k++) {
    [x[k], y[k]] = wrapPoint(box.lattice, points.x[k], points.y[k]);
    const column = homeCell(x[k], shape.mmPerCellX, shape.width);
    const row = homeCell(y[k], shape.mmPerCellY, shape.height);
    cells[k] = column + row * shape.width;
    starts[cells[k] + 1]++;
  }
  for (let k = 1; k < starts.length; k++) starts[k] += starts[k - 1];
  const next = starts.slice();
  const order = new Int32Array(count);
  for (let k = 0; k < count; k++) order[next[cells[k]]++] = k;
  return { shape, lattice: box.lattice, x, y, starts, order };
}

/**
 * Calls `visit` with every copy of every point that is at most `radius` from (x, y).
 *
 * @param visit Receives the point's number and the way to the copy, mm.
 */
export function visitNear(
  index: PointIndex,
  x: number,
  y: number,
  radius: number,
  visit: (point: number, dx: number, dy: number) => void,
): void {
  const { mmPerCellX, mmPerCellY } = index.shape;
  const lastRow = Math.floor((y + radius) / mmPerCellY);
  const lastColumn = Math.floor((x + radius) / mmPerCellX);
  for (let row = Math.floor((y - radius) / mmPerCellY); row <= lastRow; row++) {
    for (let column = Math.floor((x - radius) / mmPerCellX); column <= lastColumn; column++) {
      visitCell(index, x, y, column, row, radius * radius, visit);
    }
  }
}

function visitCell(
  index: PointIndex,
  x: number,
  y: number,
  column: number,
  row: number,
  farthest: number,
  visit: (point: number, dx: number, dy: number) => void,
): void {
  const { shape, starts, order } = index;
  const cell = cellIndex(shape, column, row);
  const homeColumn = cell % shape.width;
  // The copies of a cell's points lie as far from them as the copy of the cell.
  const awayX = (column - homeColumn) * shape.mmPerCellX - x;
  const awayY = (row - (cell - homeColumn) / shape.width) * shape.mmPerCellY - y;
  for (let k = starts[cell]; k < starts[cell + 1]; k++) {
    const dx = index.x[order[k]] + awayX;
    const dy = index.y[order[k]] + awayY;
    if (dx * dx + dy * dy <= farthest) visit(order[k], dx, dy);
  }
}

/** The two copies of points nearest to a place; of equals the one with the smaller number first. */
export interface NearestTwo {
  /** Number of the nearest point, as it was handed to `indexPoints`; -1 before the first search. */
  first: number;
  /** Number of the next nearest; equal to `first` where both are copies of one point. */
  second: number;
  /** From the place to the nearest point, mm to the right. */
  dx1: number;
  /** From the place to the nearest point, mm down the page. */
  dy1: number;
  /** The square of the way to the nearest point, mm^2: its root is the distance. */
  square1: number;
  /** From the place to the next nearest point, mm to the right. */
  dx2: number;
  /** From the place to the next nearest point, mm down the page. */
  dy2: number;
  /** The square of the way to the next nearest point, mm^2. */
  square2: number;
}

/** An answer to be filled in by `nearestTwo`. */
export function noneFound(): NearestTwo {
  const square = Number.POSITIVE_INFINITY;
  return { first: -1, second: -1, dx1: 0, dy1: 0, square1: square, dx2: 0, dy2: 0, square2: square };
}

/**
 * Finds the two points nearest to (x, y), copies included: the cells and walls of a cellular pattern
 * (S. Worley, *A cellular texture basis function*, 1996).
 *
 * @param index Of at least one point.
 * @param found Receives the answer, so that a loop over pixels makes no garbage.
 */
export function nearestTwo(index: PointIndex, x: number, y: number, found: NearestTwo): NearestTwo {
  const { mmPerCellX, mmPerCellY } = index.shape;
  const column = Math.floor(x / mmPerCellX);
  const row = Math.floor(y / mmPerCellY);
  const u = x - column * mmPerCellX;
  const v = y - row * mmPerCellY;
  const inset = Math.min(u, mmPerCellX - u, v, mmPerCellY - v);
  const side = Math.min(mmPerCellX, mmPerCellY);
  found.square1 = Number.POSITIVE_INFINITY;
  found.square2 = Number.POSITIVE_INFINITY;
  // Ring by ring, until no cell farther out can hold a nearer one.
  for (let ring = 0; found.square2 > Math.max(0, inset + (ring - 1) * side) ** 2; ring++) {
    for (let j = -ring; j <= ring; j++) {
      const gapY = gapTo(j, v, mmPerCellY);
      const stride = Math.abs(j) === ring ? 1 : 2 * ring;
      for (let i = -ring; i <= ring; i += stride) {
        const gapX = gapTo(i, u, mmPerCellX);
        if (gapX * gapX + gapY * gapY <= found.square2) offerCell(index, x, y, column + i, row + j, found);
      }
    }
  }
  return found;
}

/** From a place `inside` a cell to the nearer edge of the cell `steps` further on. */
function gapTo(steps: number, inside: number, side: number): number {
  if (steps === 0) return 0;
  return steps > 0 ? steps * side - inside : inside - (steps + 1) * side;
}

function offerCell(
  { shape, starts, order, x: xs, y: ys }: PointIndex,
  x: number,
  y: number,
  column: number,
  row: number,
  found: NearestTwo,
): void {
  const cell = cellIndex(shape, column, row);
  const homeColumn = cell % shape.width;
  const awayX = (column - homeColumn) * shape.mmPerCellX - x;
  const awayY = (row - (cell - homeColumn) / shape.width) * shape.mmPerCellY - y;
  const end = starts[cell + 1];
  for (let k = starts[cell]; k < end; k++) {
    const point = order[k];
    const dx = xs[point] + awayX;
    const dy = ys[point] + awayY;
    const square = dx * dx + dy * dy;
    if (isBefore(square, point, found.square1, found.first)) {
      found.square2 = found.square1;
      found.second = found.first;
      found.dx2 = found.dx1;
      found.dy2 = found.dy1;
      found.square1 = square;
      found.first = point;
      found.dx1 = dx;
      found.dy1 = dy;
    } else if (isBefore(square, point, found.square2, found.second)) {
      found.square2 = square;
      found.second = point;
      found.dx2 = dx;
      found.dy2 = dy;
    }
  }
}

function isBefore(square: number, point: number, otherSquare: number, other: number): boolean {
  return square < otherSquare || (square === otherSquare && point < other);
}
