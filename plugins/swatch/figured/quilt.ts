import { cellIndex, type FieldShape, type Lattice } from 'tenter';
import { FINE, type Sheet } from './sheet.ts';

/** No piece has been laid there. */
export const BARE = -1;

/** What a join costs per cell where the two sides differ as two places taken at random do, some 2.7 times this. */
const SCALE = 1000;
/** A join costs this much even where nothing differs, so that it takes no detours. */
const LENGTH = 12;
/** The most a cell of a join may cost: four of them still fit a cut. */
const MOST = 1e8;

/** The pieces that lie on the torus: for each cell, which way up and from where the swatch is seen there. */
export class Quilt {
  /** Per cell: the piece, `BARE` where none. */
  readonly piece: Int32Array;
  /** Of each piece: its sheet, and the fine sample of the sheet less `FINE` times the cell. */
  readonly pose: number[] = [];
  readonly ox: number[] = [];
  readonly oy: number[] = [];
  private readonly known = new Map<string, number>();

  constructor(
    readonly shape: FieldShape,
    readonly sheets: readonly Sheet[],
    readonly count: number,
  ) {
    this.piece = new Int32Array(shape.width * shape.height).fill(BARE);
  }

  pieceOf(pose: number, ox: number, oy: number): number {
    const key = `${pose},${ox},${oy}`;
    let piece = this.known.get(key);
    if (piece !== undefined) return piece;
    piece = this.pose.length;
    this.known.set(key, piece);
    this.pose.push(pose);
    this.ox.push(ox);
    this.oy.push(oy);
    return piece;
  }

  /**
   * What parts two pieces at a cell: mean squared difference over its samples, less where much goes on. Both are
   * given as a sheet and the fine sample that the cell begins at there.
   */
  between(a: number, ax: number, ay: number, b: number, bx: number, by: number): number {
    if (a === b && ax === bx && ay === by) return 0;
    const { count } = this;
    const sheetA = this.sheets[a];
    const sheetB = this.sheets[b];
    const run = FINE * count;
    let sum = 0;
    for (let row = 0; row < FINE; row++) {
      let p = (ax + (ay + row) * sheetA.width) * count;
      let q = (bx + (by + row) * sheetB.width) * count;
      for (const end = p + run; p < end; p++, q++) {
        const off = sheetA.features[p] - sheetB.features[q];
        sum += off * off;
      }
    }
    const busy = sheetA.busy[ax + ay * sheetA.width] + sheetB.busy[bx + by * sheetB.width];
    return Math.min(MOST, Math.round((SCALE * sum) / (FINE * FINE) / (0.4 + 0.3 * busy))) + LENGTH;
  }

  /** What the joins cost between a cell and its neighbours to the right and below. */
  joinCost(k: number): number {
    const { width } = this.shape;
    const i = k % width;
    const j = (k - i) / width;
    return this.edgeCost(k, i, j, i + 1, j) + this.edgeCost(k, i, j, i, j + 1);
  }

  private edgeCost(k: number, i: number, j: number, ni: number, nj: number): number {
    const { shape, piece, pose, ox, oy } = this;
    const n = cellIndex(shape, ni, nj);
    const a = piece[k];
    const b = piece[n];
    if (a === BARE || b === BARE) return 0;
    const hi = n % shape.width;
    const hj = (n - hi) / shape.width;
    const bx = ox[b] + FINE * (hi - ni);
    const by = oy[b] + FINE * (hj - nj);
    if (pose[a] === pose[b] && ox[a] === bx && oy[a] === by) return 0;
    return (
      this.between(pose[a], FINE * i + ox[a], FINE * j + oy[a], pose[b], FINE * i + bx, FINE * j + by) +
      this.between(pose[a], FINE * ni + ox[a], FINE * nj + oy[a], pose[b], FINE * ni + bx, FINE * nj + by)
    );
  }
}

/** A rectangle of cells of the plane, no larger than the box, and what lies on it as seen from there. */
export interface Cutting {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Of each cell: where it is kept. */
  readonly cell: Int32Array;
  /** What to add to an offset of the plane for that of the kept cell: fine samples. */
  readonly homeX: Int32Array;
  readonly homeY: Int32Array;
  /** Of each cell: the sheet that is seen there, -1 where bare, and its offset on the plane. */
  readonly pose: Int16Array;
  readonly ox: Int32Array;
  readonly oy: Int32Array;
}

export function cuttingOf(quilt: Quilt, x: number, y: number, width: number, height: number): Cutting {
  const { shape, piece } = quilt;
  const count = width * height;
  const cutting: Cutting = {
    x,
    y,
    width,
    height,
    cell: new Int32Array(count),
    homeX: new Int32Array(count),
    homeY: new Int32Array(count),
    pose: new Int16Array(count).fill(-1),
    ox: new Int32Array(count),
    oy: new Int32Array(count),
  };
  for (let j = 0, k = 0; j < height; j++) {
    for (let i = 0; i < width; i++, k++) {
      const cell = cellIndex(shape, x + i, y + j);
      const hi = cell % shape.width;
      const hj = (cell - hi) / shape.width;
      cutting.cell[k] = cell;
      cutting.homeX[k] = FINE * (x + i - hi);
      cutting.homeY[k] = FINE * (y + j - hj);
      const own = piece[cell];
      if (own === BARE) continue;
      cutting.pose[k] = quilt.pose[own];
      cutting.ox[k] = quilt.ox[own] - cutting.homeX[k];
      cutting.oy[k] = quilt.oy[own] - cutting.homeY[k];
    }
  }
  return cutting;
}

/** The lattice that a quilt's cells stand on, in mm. */
export function latticeInMm({ lattice, mmPerCellX, mmPerCellY }: FieldShape): Lattice {
  return {
    ax: lattice.ax * mmPerCellX,
    ay: lattice.ay * mmPerCellY,
    bx: lattice.bx * mmPerCellX,
    by: lattice.by * mmPerCellY,
  };
}
