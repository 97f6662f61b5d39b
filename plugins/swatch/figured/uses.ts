import { type Lattice, shortestWay } from 'tenter';
import type { Laid } from './overlay.ts';
import type { Cutting, Quilt } from './quilt.ts';
import { FINE } from './sheet.ts';

/** Cells across a block: use is counted by blocks of the swatch. */
const BLOCK = 6;

/** Where each part of the swatch has been used, so that nothing comes back too soon or too often. */
export class Uses {
  /** Per sheet and block: how many cells each piece shows of it. */
  private readonly counts: Map<number, number>[][];
  private readonly across: number[];
  private readonly lattice: Lattice;
  private readonly mmX: number;
  private readonly mmY: number;

  constructor(private readonly quilt: Quilt) {
    this.across = quilt.sheets.map(({ width }) => Math.ceil(width / FINE / BLOCK) + 1);
    this.counts = quilt.sheets.map(({ height }, pose) =>
      Array.from({ length: this.across[pose] * (Math.ceil(height / FINE / BLOCK) + 1) }, () => new Map()),
    );
    const { lattice, mmPerCellX, mmPerCellY } = quilt.shape;
    this.mmX = mmPerCellX / FINE;
    this.mmY = mmPerCellY / FINE;
    this.lattice = {
      ax: lattice.ax * mmPerCellX,
      ay: lattice.ay * mmPerCellY,
      bx: lattice.bx * mmPerCellX,
      by: lattice.by * mmPerCellY,
    };
  }

  /** Counts the pieces of the cells that are about to be covered out, or those that have been laid in. */
  count(cutting: Cutting, taken: Uint8Array, by: 1 | -1): void {
    const { quilt } = this;
    for (let k = 0; k < taken.length; k++) {
      if (!taken[k]) continue;
      const cell = cutting.cell[k];
      const piece = quilt.piece[cell];
      if (piece < 0) continue;
      const i = cell % quilt.shape.width;
      const j = (cell - i) / quilt.shape.width;
      const pose = quilt.pose[piece];
      const block =
        Math.floor((FINE * i + quilt.ox[piece]) / FINE / BLOCK) +
        Math.floor((FINE * j + quilt.oy[piece]) / FINE / BLOCK) * this.across[pose];
      const uses = this.counts[pose][block];
      const now = (uses.get(piece) ?? 0) + by;
      if (now > 0) uses.set(piece, now);
      else uses.delete(piece);
    }
  }

  /**
   * How near and how often what a piece would show on a rectangle is shown already.
   *
   * @returns `nearest` in mm, infinite where it is shown nowhere else; `often`, how many times on average.
   */
  of(x: number, y: number, width: number, height: number, laid: Laid): { nearest: number; often: number } {
    const { quilt } = this;
    const across = this.across[laid.pose];
    const left = Math.floor((FINE * x + laid.ox) / FINE / BLOCK);
    const right = Math.floor((FINE * (x + width) + laid.ox) / FINE / BLOCK);
    const top = Math.floor((FINE * y + laid.oy) / FINE / BLOCK);
    const bottom = Math.floor((FINE * (y + height) + laid.oy) / FINE / BLOCK);
    const cells = new Map<number, number>();
    let total = 0;
    for (let j = top; j <= bottom; j++) {
      for (let i = left; i <= right; i++) {
        for (const [piece, count] of this.counts[laid.pose][i + j * across]) {
          cells.set(piece, (cells.get(piece) ?? 0) + count);
          total += count;
        }
      }
    }
    let nearest = Number.POSITIVE_INFINITY;
    for (const [piece, count] of cells) {
      // A corner that is shown elsewhere is not a thing that comes back.
      if (count < 0.05 * width * height) continue;
      const [dx, dy] = shortestWay(
        this.lattice,
        (laid.ox - quilt.ox[piece]) * this.mmX,
        (laid.oy - quilt.oy[piece]) * this.mmY,
      );
      const far = Math.hypot(dx, dy);
      // The same piece grows: nothing comes back.
      if (far > 1e-6) nearest = Math.min(nearest, far);
    }
    return { nearest, often: total / ((right - left + 1) * (bottom - top + 1) * BLOCK * BLOCK) };
  }
}
