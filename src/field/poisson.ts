import { type Lattice, wrapPoint } from '../repeat/lattice.ts';
import type { Box } from '../repeat/repeat.ts';
import { homeCell } from './home-cell.ts';
import { cellIndex, type FieldShape, fieldShape } from './periodic.ts';
import type { RandomStream } from './random.ts';
import { requirePositive } from './require.ts';

/** Points of one repeat, inside its box, mm. Plain data. */
export interface PointSet {
  /** Of each point across the page, mm, within the box. */
  readonly x: Float64Array;
  /** Of each point down the page, mm, within the box. */
  readonly y: Float64Array;
}

/** How often Bridson tries to find a place beside a point. */
const TRIES = 30;

/**
 * Points at random that keep their distance from one another and from one another's copies in
 * repeat: neither clumps nor seams. In order of their making, which the stream alone decides.
 *
 * After R. Bridson, *Fast Poisson disk sampling in arbitrary dimensions* (2007), on the repeat's torus.
 * About 0.615 * area / distance^2 points; at least one, even where its own copies stand nearer than
 * `distance`.
 *
 * @param distance The least distance between two points, mm.
 * @throws Fault (effect) where it is not above 0, or so small that the points could not be held.
 */
export function poissonPoints(box: Box, distance: number, random: RandomStream): PointSet {
  requirePositive(distance, 'the distance between points');
  const { lattice } = box;
  const xs = [random.between(0, box.width)];
  const ys = [random.between(0, box.height)];
  if (shortestVector(lattice) < distance) return pointSet(xs, ys);
  const near = new Occupancy(box, distance);
  near.add(xs[0], ys[0]);
  const active = [0];
  while (active.length > 0) {
    const pick = random.below(active.length);
    const parent = active[pick];
    let found = false;
    for (let attempt = 0; attempt < TRIES && !found; attempt++) {
      const angle = random.between(0, 2 * Math.PI);
      const radius = distance * Math.sqrt(random.between(1, 4));
      const [x, y] = wrapPoint(
        lattice,
        xs[parent] + radius * Math.cos(angle),
        ys[parent] + radius * Math.sin(angle),
      );
      found = near.isFree(x, y);
      if (!found) continue;
      active.push(xs.length);
      xs.push(x);
      ys.push(y);
      near.add(x, y);
    }
    if (found) continue;
    active[pick] = active[active.length - 1];
    active.pop();
  }
  return pointSet(xs, ys);
}

/** The length of the shortest translation of a lattice, in its unit (Gauss's reduction of the basis). */
export function shortestVector({ ax, ay, bx, by }: Lattice): number {
  let [px, py, qx, qy] = [ax, ay, bx, by];
  for (;;) {
    if (px * px + py * py > qx * qx + qy * qy) [px, py, qx, qy] = [qx, qy, px, py];
    const times = Math.round((px * qx + py * qy) / (px * px + py * py));
    if (times === 0) return Math.hypot(px, py);
    qx -= times * px;
    qy -= times * py;
  }
}

function pointSet(x: number[], y: number[]): PointSet {
  return { x: Float64Array.from(x), y: Float64Array.from(y) };
}

/** Which point stands in which cell, the cells so small that none can hold two. */
class Occupancy {
  private readonly grid: FieldShape;
  /** NaN where a cell is empty: no distance from there is less than anything. */
  private readonly px: Float64Array;
  private readonly py: Float64Array;
  private readonly reachX: number;
  private readonly reachY: number;

  constructor(
    box: Box,
    private readonly distance: number,
  ) {
    this.grid = fieldShape(box, distance / Math.SQRT2, Math.ceil);
    const { width, height, mmPerCellX, mmPerCellY } = this.grid;
    this.px = new Float64Array(width * height).fill(Number.NaN);
    this.py = new Float64Array(width * height).fill(Number.NaN);
    this.reachX = Math.ceil(distance / mmPerCellX);
    this.reachY = Math.ceil(distance / mmPerCellY);
  }

  /** Takes a point of the box. */
  add(x: number, y: number): void {
    const cell = this.column(x) + this.row(y) * this.grid.width;
    this.px[cell] = x;
    this.py[cell] = y;
  }

  private column(x: number): number {
    return homeCell(x, this.grid.mmPerCellX, this.grid.width);
  }

  private row(y: number): number {
    return homeCell(y, this.grid.mmPerCellY, this.grid.height);
  }

  /** Whether a point of the box keeps its distance from all taken and their copies. */
  isFree(x: number, y: number): boolean {
    const { grid, reachX, reachY } = this;
    const i = this.column(x);
    const j = this.row(y);
    const isInside = i >= reachX && j >= reachY && i + reachX < grid.width && j + reachY < grid.height;
    return isInside ? this.isFreeInside(x, y, i, j) : this.isFreeOverSeam(x, y, i, j);
  }

  private isFreeInside(x: number, y: number, i: number, j: number): boolean {
    const { px, py, reachX, reachY } = this;
    const width = this.grid.width | 0;
    const least = this.distance * this.distance;
    for (let row = j - reachY; row <= j + reachY; row++) {
      const last = row * width + i + reachX;
      for (let cell = row * width + i - reachX; cell <= last; cell++) {
        const dx = px[cell] - x;
        const dy = py[cell] - y;
        if (dx * dx + dy * dy < least) return false;
      }
    }
    return true;
  }

  private isFreeOverSeam(x: number, y: number, i: number, j: number): boolean {
    const { grid, px, py, reachX, reachY, distance } = this;
    for (let row = j - reachY; row <= j + reachY; row++) {
      for (let column = i - reachX; column <= i + reachX; column++) {
        const cell = cellIndex(grid, column, row);
        // The copy of the point lies as far from it as the copy of its cell.
        const homeColumn = cell % grid.width;
        const homeRow = (cell - homeColumn) / grid.width;
        const dx = px[cell] + (column - homeColumn) * grid.mmPerCellX - x;
        const dy = py[cell] + (row - homeRow) * grid.mmPerCellY - y;
        if (dx * dx + dy * dy < distance * distance) return false;
      }
    }
    return true;
  }
}
