import { cellIndex, type FieldShape } from './periodic.ts';
import { neighboursOf } from './stencil.ts';

/** Where a place stands on a grid of cells. */
export interface CellPlace {
  /** The number of its cell, 0 <= cell < width * height, the same in every copy. */
  cell: number;
  /** mm from the left edge of the cell. */
  x: number;
  /** mm from the top edge of the cell. */
  y: number;
}

/** An answer to be filled in by `findCell`. */
export function noCell(): CellPlace {
  return { cell: -1, x: 0, y: 0 };
}

/**
 * A place this little before an edge, in cells, is on it and belongs to the next cell: pixels that stand on
 * an edge then do so in every copy, though each copy rounds otherwise.
 */
const ON_EDGE = 1e-7;

/**
 * The cell of a place anywhere on the plane.
 *
 * @param x     mm
 * @param y     mm
 * @param place Receives the answer, so that a loop over pixels makes no garbage.
 */
export function findCell(grid: FieldShape, x: number, y: number, place: CellPlace): CellPlace {
  const i = Math.floor(x / grid.mmPerCellX + ON_EDGE);
  const j = Math.floor(y / grid.mmPerCellY + ON_EDGE);
  place.cell = cellIndex(grid, i, j);
  place.x = Math.max(0, x - i * grid.mmPerCellX);
  place.y = Math.max(0, y - j * grid.mmPerCellY);
  return place;
}

/**
 * `findCell` for a row of points, with the same bits and several times faster: a number is looked up once
 * per cell and shared by its points.
 *
 * @param x0     mm of the first point.
 * @param step   mm from point to point.
 * @param y      mm
 * @param cells  Receives `count` numbers of cells from `offset` on.
 * @param places Receives the points' mm from the left edges of their cells.
 * @returns mm from the top edge of the cells, the same for the whole row.
 */
export function findCells(
  grid: FieldShape,
  x0: number,
  step: number,
  y: number,
  cells: Int32Array,
  places: Float64Array | Float32Array,
  count: number,
  offset = 0,
): number {
  const { mmPerCellX, mmPerCellY } = grid;
  const j = Math.floor(y / mmPerCellY + ON_EDGE);
  let column = Number.NaN;
  let cell = -1;
  for (let k = 0; k < count; k++) {
    const x = x0 + k * step;
    const i = Math.floor(x / mmPerCellX + ON_EDGE);
    if (i !== column) {
      column = i;
      cell = cellIndex(grid, i, j);
    }
    cells[offset + k] = cell;
    places[offset + k] = Math.max(0, x - i * mmPerCellX);
  }
  return Math.max(0, y - j * mmPerCellY);
}

/**
 * For each cell the numbers of its four corners. There are as many corners as cells, and each has the number
 * of the cell whose upper left corner it is: a list with a number per corner is one per cell.
 */
export interface Corners {
  /** Of every cell the number of its corner at the left and above. */
  readonly topLeft: Int32Array;
  /** Of every cell the number of its corner at the right and above. */
  readonly topRight: Int32Array;
  /** Of every cell the number of its corner at the left and below. */
  readonly bottomLeft: Int32Array;
  /** Of every cell the number of its corner at the right and below. */
  readonly bottomRight: Int32Array;
}

/** The corner tables of a grid: look them up once, for they take 16 bytes per cell. */
export function cornersOf(grid: FieldShape): Corners {
  const { right, below } = neighboursOf(grid);
  return {
    topLeft: Int32Array.from(right, (_, cell) => cell),
    topRight: right,
    bottomLeft: below,
    bottomRight: below.map((cell) => right[cell]),
  };
}
