import { type Lattice, wrapPoint } from '../repeat/lattice.ts';
import type { Box } from '../repeat/repeat.ts';
import { cellIndex, type FieldShape, fieldShape } from './periodic.ts';
import type { RandomStream } from './random.ts';

/** Points of one repeat, inside its box, mm. Plain data. */
export interface PointSet {
  readonly x: Float64Array;
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
 */
export function poissonPoints(box: Box, distance: number, random: RandomStream): PointSet {
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
  private readonly taken: Uint8Array;
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
    this.taken = new Uint8Array(width * height);
    this.px = new Float64Array(width * height);
    this.py = new Float64Array(width * height);
    this.reachX = Math.ceil(distance / mmPerCellX);
    this.reachY = Math.ceil(distance / mmPerCellY);
  }

  /** Points are kept relative to their cell's corner, so that a copy of the cell has the copy of the point. */
  add(x: number, y: number): void {
    const { mmPerCellX, mmPerCellY } = this.grid;
    const i = Math.floor(x / mmPerCellX);
    const j = Math.floor(y / mmPerCellY);
    const cell = cellIndex(this.grid, i, j);
    this.taken[cell] = 1;
    this.px[cell] = x - i * mmPerCellX;
    this.py[cell] = y - j * mmPerCellY;
  }

  isFree(x: number, y: number): boolean {
    const { grid, distance, taken, px, py } = this;
    const i = Math.floor(x / grid.mmPerCellX);
    const j = Math.floor(y / grid.mmPerCellY);
    for (let row = j - this.reachY; row <= j + this.reachY; row++) {
      for (let column = i - this.reachX; column <= i + this.reachX; column++) {
        const cell = cellIndex(grid, column, row);
        if (taken[cell] === 0) continue;
        const dx = column * grid.mmPerCellX + px[cell] - x;
        const dy = row * grid.mmPerCellY + py[cell] - y;
        if (dx * dx + dy * dy < distance * distance) return false;
      }
    }
    return true;
  }
}
