import { type CutCosts, MOST_COST } from './cut-costs.ts';

/** A corner between cells: before column `i`, 1 to width - 1, of row `row` of the search. */
export interface Corner {
  readonly i: number;
  readonly row: number;
}

/** A way along corners, and what it costs. */
export interface Way {
  readonly cost: number;
  /** From the beginning to the end, each beside the last. */
  readonly corners: readonly Corner[];
}

/** Where a way may begin and end: on corners `low` to `high` of a row. */
export interface Reach {
  readonly row: number;
  readonly low: number;
  readonly high: number;
}

const STEPS = [
  { di: 0, drow: 1 },
  { di: 0, drow: -1 },
  { di: 1, drow: 0 },
  { di: -1, drow: 0 },
] as const;

/**
 * The cheapest way along the corners between the cells of a strip: the least cut that parts its two long sides
 * (L. R. Ford, D. R. Fulkerson, *Maximal flow through a network*, 1956: in a planar graph the least cut is a
 * shortest way of the dual). Exact; after E. W. Dijkstra (1959), with R. B. Dial's buckets (1969) for
 * costs in whole numbers.
 *
 * Rows of the search run from 0 to `rows`; row r lies before row `r - offset` of cells, modulo the strip's
 * length, so that a way may go on where the strip closes round.
 */
export class CutSearch {
  private readonly columns: number;
  private readonly distance: Int32Array;
  private readonly cameBy: Uint8Array;
  private readonly buckets = new Int32Array(MOST_COST + 1);
  private entryCorner = new Int32Array(4096);
  private entryNext = new Int32Array(4096);
  private entries = 0;
  private free = -1;
  private waiting = 0;

  constructor(
    private readonly costs: CutCosts,
    private readonly rows: number,
    private readonly offset = 0,
  ) {
    this.columns = costs.width - 1;
    this.distance = new Int32Array(this.columns * (rows + 1));
    this.cameBy = new Uint8Array(this.columns * (rows + 1));
  }

  /** @returns Nothing where no way leads from the one to the other. */
  find(from: Reach, to: Reach): Way | undefined {
    const { columns, distance } = this;
    distance.fill(-1);
    this.cameBy.fill(STEPS.length);
    this.buckets.fill(-1);
    this.entries = 0;
    this.free = -1;
    this.waiting = 0;
    for (let i = from.low; i <= from.high; i++) this.reach(i - 1 + from.row * columns, 0, STEPS.length);
    const [first, last] = [to.low - 1 + to.row * columns, to.high - 1 + to.row * columns];
    for (let due = 0; this.waiting > 0; due++) {
      for (let corner = this.take(due); corner >= 0; corner = this.take(due)) {
        if (distance[corner] !== due) continue;
        if (corner >= first && corner <= last) return { cost: due, corners: this.wayTo(corner) };
        this.spread(corner, due);
      }
    }
    return undefined;
  }

  private spread(corner: number, due: number): void {
    const { columns, rows, costs, offset } = this;
    const row = Math.floor(corner / columns);
    const column = corner - row * columns;
    // Corner column c stands before cell column c + 1.
    const cells = this.cellRow(row - offset) * costs.width + column + 1;
    if (row < rows) this.reach(corner + columns, due + costs.across[cells], 0);
    if (row > 0) {
      const above = this.cellRow(row - 1 - offset) * costs.width + column + 1;
      this.reach(corner - columns, due + costs.across[above], 1);
    }
    if (row === 0 || row === rows) return;
    if (column < columns - 1) this.reach(corner + 1, due + costs.along[cells], 2);
    if (column > 0) this.reach(corner - 1, due + costs.along[cells - 1], 3);
  }

  private cellRow(row: number): number {
    const { length } = this.costs;
    return row < 0 ? row + length : row >= length ? row - length : row;
  }

  private reach(corner: number, cost: number, step: number): void {
    const before = this.distance[corner];
    if (before >= 0 && before <= cost) return;
    this.distance[corner] = cost;
    this.cameBy[corner] = step;
    this.put(corner, cost & MOST_COST);
  }

  private put(corner: number, bucket: number): void {
    let entry = this.free;
    if (entry >= 0) this.free = this.entryNext[entry];
    else {
      entry = this.entries++;
      if (entry === this.entryCorner.length) this.grow();
    }
    this.entryCorner[entry] = corner;
    this.entryNext[entry] = this.buckets[bucket];
    this.buckets[bucket] = entry;
    this.waiting++;
  }

  private grow(): void {
    const twice = (old: Int32Array<ArrayBuffer>) => {
      const more = new Int32Array(2 * old.length);
      more.set(old);
      return more;
    };
    this.entryCorner = twice(this.entryCorner);
    this.entryNext = twice(this.entryNext);
  }

  /** The next corner that is due, or -1. */
  private take(due: number): number {
    const bucket = due & MOST_COST;
    const entry = this.buckets[bucket];
    if (entry < 0) return -1;
    this.buckets[bucket] = this.entryNext[entry];
    this.entryNext[entry] = this.free;
    this.free = entry;
    this.waiting--;
    return this.entryCorner[entry];
  }

  private wayTo(corner: number): Corner[] {
    const { columns } = this;
    const corners: Corner[] = [];
    let [i, row] = [(corner % columns) + 1, Math.floor(corner / columns)];
    for (;;) {
      corners.push({ i, row });
      const step = STEPS[this.cameBy[i - 1 + row * columns]];
      if (step === undefined) return corners.reverse();
      i -= step.di;
      row -= step.drow;
    }
  }
}
