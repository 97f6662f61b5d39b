import { type Box, shortestWay, wrapPoint } from 'tenter';

/** Discs laid so far, to find how much room there is beside them. */
export class Crowd {
  private readonly box: Box;
  private readonly columns: number;
  private readonly rows: number;
  private readonly cells: number[][];
  private readonly xs: number[] = [];
  private readonly ys: number[] = [];
  private readonly radii: number[] = [];

  /** @param size mm; discs further off than this are not asked about. */
  constructor(box: Box, size: number) {
    this.box = box;
    this.columns = Math.max(1, Math.min(256, Math.floor(box.width / size)));
    this.rows = Math.max(1, Math.min(256, Math.floor(box.height / size)));
    this.cells = Array.from({ length: this.columns * this.rows }, () => []);
  }

  /** Adds a disc, so that it is found from its own cell and the eight around. */
  add(x: number, y: number, radius: number): void {
    const disc = this.xs.length;
    this.xs.push(x);
    this.ys.push(y);
    this.radii.push(radius);
    const cells = new Set<number>();
    for (let j = -1; j <= 1; j++)
      for (let i = -1; i <= 1; i++)
        cells.add(
          this.cellAt(x + (i * this.box.width) / this.columns, y + (j * this.box.height) / this.rows),
        );
    for (const cell of cells) this.cells[cell].push(disc);
  }

  /** The least gap from a disc at (x, y) to those laid, as a share of its own and their radius; below 0 they overlap. */
  gapAt(x: number, y: number, radius: number): number {
    let least = 1;
    for (const disc of this.cells[this.cellAt(x, y)]) {
      const sum = radius + this.radii[disc];
      least = Math.min(least, this.distanceTo(disc, x, y) / sum - 1);
    }
    return least;
  }

  /** The first disc laid that one at (x, y) reaches into by more than `overlap` of both radii, or -1. */
  touched(x: number, y: number, radius: number, overlap: number): number {
    for (const disc of this.cells[this.cellAt(x, y)]) {
      const sum = radius + this.radii[disc];
      if (this.distanceTo(disc, x, y) < sum * (1 - overlap)) return disc;
    }
    return -1;
  }

  private cellAt(x: number, y: number): number {
    const [u, v] = wrapPoint(this.box.lattice, x, y);
    const column = Math.min(this.columns - 1, Math.floor((u / this.box.width) * this.columns));
    const row = Math.min(this.rows - 1, Math.floor((v / this.box.height) * this.rows));
    return column + row * this.columns;
  }

  private distanceTo(disc: number, x: number, y: number): number {
    return Math.hypot(...shortestWay(this.box.lattice, x - this.xs[disc], y - this.ys[disc]));
  }
}
