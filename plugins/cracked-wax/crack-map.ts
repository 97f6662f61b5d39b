import { type Box, cellIndex, type FieldShape, fieldShape, wrapPoint } from 'tenter';

/** A crack's vertex near a place. */
export interface Near {
  vertex: number;
  /** The way to it, mm. */
  dx: number;
  dy: number;
  distance: number;
}

/**
 * All vertices of all cracks so far, sorted into cells that close over the repeat, to find the nearest to
 * a place without looking at all of them.
 */
export class CrackMap {
  private readonly shape: FieldShape;
  private readonly heads: Int32Array;
  private readonly next: number[] = [];
  private readonly xs: number[] = [];
  private readonly ys: number[] = [];
  readonly crack: number[] = [];
  /** mm along its crack. */
  readonly along: number[] = [];

  constructor(
    private readonly box: Box,
    mmPerCell: number,
  ) {
    this.shape = fieldShape(box, mmPerCell);
    this.heads = new Int32Array(this.shape.width * this.shape.height).fill(-1);
  }

  get count(): number {
    return this.xs.length;
  }

  add(x: number, y: number, crack: number, along: number): void {
    const { width, height, mmPerCellX, mmPerCellY } = this.shape;
    const [homeX, homeY] = wrapPoint(this.box.lattice, x, y);
    const column = Math.min(width - 1, Math.floor(homeX / mmPerCellX));
    const row = Math.min(height - 1, Math.floor(homeY / mmPerCellY));
    const cell = column + row * width;
    this.next.push(this.heads[cell]);
    this.heads[cell] = this.xs.length;
    this.xs.push(homeX);
    this.ys.push(homeY);
    this.crack.push(crack);
    this.along.push(along);
  }

  /**
   * The nearest vertex within `radius` of (x, y), copies included.
   *
   * @param isBlind Vertices that are not seen.
   * @returns `near`, its vertex -1 where there is none.
   */
  nearest(x: number, y: number, radius: number, near: Near, isBlind: (vertex: number) => boolean): Near {
    const { shape, heads, next, xs, ys } = this;
    const { mmPerCellX, mmPerCellY, width } = shape;
    near.vertex = -1;
    let least = radius * radius;
    const firstRow = Math.floor((y - radius) / mmPerCellY);
    const lastRow = Math.floor((y + radius) / mmPerCellY);
    const firstColumn = Math.floor((x - radius) / mmPerCellX);
    const lastColumn = Math.floor((x + radius) / mmPerCellX);
    for (let row = firstRow; row <= lastRow; row++) {
      for (let column = firstColumn; column <= lastColumn; column++) {
        const cell = cellIndex(shape, column, row);
        const homeColumn = cell % width;
        const awayX = (column - homeColumn) * mmPerCellX - x;
        const awayY = (row - (cell - homeColumn) / width) * mmPerCellY - y;
        for (let vertex = heads[cell]; vertex >= 0; vertex = next[vertex]) {
          const dx = xs[vertex] + awayX;
          const dy = ys[vertex] + awayY;
          const square = dx * dx + dy * dy;
          if (square >= least || isBlind(vertex)) continue;
          least = square;
          near.vertex = vertex;
          near.dx = dx;
          near.dy = dy;
        }
      }
    }
    near.distance = Math.sqrt(least);
    return near;
  }
}

/** A `Near` to be filled in. */
export function nothingNear(): Near {
  return { vertex: -1, dx: 0, dy: 0, distance: 0 };
}
