import { type Lattice, shortestWay } from 'tenter';
import type { Laid } from './overlay.ts';
import { type Cutting, latticeInMm, type Quilt } from './quilt.ts';
import { FINE } from './sheet.ts';

/** Every how many cells, across and down, a piece is looked at. */
const EVERY = 5;

/** Where each cell of the swatch is seen, so that nothing comes back too soon or too often. */
export class Uses {
  /** Per sheet and cell of it: the pieces that show it. */
  private readonly pieces: number[][][];
  private readonly across: number[];
  private readonly lattice: Lattice;
  private readonly mmX: number;
  private readonly mmY: number;
  private laid: Laid = { pose: 0, ox: 0, oy: 0 };
  private known = new Float64Array(0);

  constructor(private readonly quilt: Quilt) {
    this.across = quilt.sheets.map(({ width }) => Math.ceil(width / FINE));
    this.pieces = quilt.sheets.map(({ height }, pose) =>
      Array.from({ length: this.across[pose] * Math.ceil(height / FINE) }, () => []),
    );
    this.mmX = quilt.shape.mmPerCellX / FINE;
    this.mmY = quilt.shape.mmPerCellY / FINE;
    this.lattice = latticeInMm(quilt.shape);
  }

  /** Takes out what the cells that are about to be covered show. */
  forget(cutting: Cutting, taken: Uint8Array): void {
    this.each(cutting, taken, (pieces, piece) => {
      pieces[pieces.indexOf(piece)] = pieces[pieces.length - 1];
      pieces.pop();
    });
  }

  /** Takes in what the cells that have been covered show. */
  note(cutting: Cutting, taken: Uint8Array): void {
    this.each(cutting, taken, (pieces, piece) => void pieces.push(piece));
  }

  private each(
    { cell }: Cutting,
    taken: Uint8Array,
    change: (pieces: number[], piece: number) => void,
  ): void {
    const { piece, pose, ox, oy, shape } = this.quilt;
    for (let k = 0; k < taken.length; k++) {
      if (!taken[k]) continue;
      const own = piece[cell[k]];
      if (own < 0) continue;
      const i = cell[k] % shape.width;
      const j = (cell[k] - i) / shape.width;
      change(this.at(pose[own], FINE * i + ox[own], FINE * j + oy[own]), own);
    }
  }

  private at(pose: number, fineX: number, fineY: number): number[] {
    return this.pieces[pose][Math.floor(fineX / FINE) + Math.floor(fineY / FINE) * this.across[pose]];
  }

  /**
   * How much of what a piece would show on a cutting is shown within `near` mm already, 0..1, what is shown within
   * `far` counted in part; and `often`, how many times a place of it is shown on average.
   */
  of(
    { x, y, width, height }: Cutting,
    laid: Laid,
    near: number,
    far: number,
  ): { soon: number; often: number } {
    this.begin(laid);
    let soon = 0;
    let total = 0;
    let looked = 0;
    for (let j = EVERY >> 1; j < height; j += EVERY) {
      for (let i = EVERY >> 1; i < width; i += EVERY) {
        looked++;
        let nearest = 0;
        for (const piece of this.at(laid.pose, FINE * (x + i) + laid.ox, FINE * (y + j) + laid.oy)) {
          const apart = this.apart(piece);
          const much = apart < near ? 1 : apart < far ? (0.4 * (far - apart)) / (far - near) : 0;
          if (much > nearest) nearest = much;
          total++;
        }
        soon += nearest;
      }
    }
    return looked > 0 ? { soon: soon / looked, often: total / looked } : { soon: 0, often: 0 };
  }

  /** Per cell of a cutting: 1 where the piece would show what is shown within `near` mm, or `often` times, already. */
  barred({ x, y, width, height }: Cutting, laid: Laid, near: number, often: number): Uint8Array {
    const barred = new Uint8Array(width * height);
    this.begin(laid);
    for (let j = 0, k = 0; j < height; j++) {
      for (let i = 0; i < width; i++, k++) {
        const pieces = this.at(laid.pose, FINE * (x + i) + laid.ox, FINE * (y + j) + laid.oy);
        if (pieces.length >= often) barred[k] = 1;
        for (const piece of pieces) {
          if (this.apart(piece) < near) barred[k] = 1;
        }
      }
    }
    return barred;
  }

  /** Per cell of a cutting: 1 where it shows what another place within `near` mm shows too. */
  tooNear({ cell }: Cutting, near: number): Uint8Array {
    const { piece, pose, ox, oy, shape } = this.quilt;
    return Uint8Array.from(cell, (k) => {
      const own = piece[k];
      const i = k % shape.width;
      const laid = { pose: pose[own], ox: ox[own], oy: oy[own] };
      const pieces = this.at(laid.pose, FINE * i + laid.ox, (FINE * (k - i)) / shape.width + laid.oy);
      if (pieces.length < 2) return 0;
      if (this.laid.pose !== laid.pose || this.laid.ox !== laid.ox || this.laid.oy !== laid.oy)
        this.begin(laid);
      return pieces.some((other) => this.apart(other) < near) ? 1 : 0;
    });
  }

  /** From now on distances are those from this piece, each worked out once. */
  private begin(laid: Laid): void {
    const { length } = this.quilt.pose;
    if (this.known.length < length) this.known = new Float64Array(2 * length);
    this.known.fill(-1, 0, length);
    this.laid = laid;
  }

  /** mm between two uses of a place by the piece begun with and another; infinite where they are one that grows. */
  private apart(piece: number): number {
    const { known } = this;
    if (known[piece] >= 0) return known[piece];
    const { ox, oy } = this.quilt;
    const dx = (this.laid.ox - ox[piece]) * this.mmX;
    const dy = (this.laid.oy - oy[piece]) * this.mmY;
    const far = Math.hypot(...shortestWay(this.lattice, dx, dy));
    known[piece] = far > 1e-6 ? far : Number.POSITIVE_INFINITY;
    return known[piece];
  }
}
