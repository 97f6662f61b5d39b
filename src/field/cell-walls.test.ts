import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { cellWalls, lineCover, noWall, wallAt } from './cell-walls.ts';
import { indexPoints } from './points.ts';
import type { PointSet } from './poisson.ts';
import { randomStream } from './random.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3'];
const boxFor = (layout: string, width = 31, height = 23) =>
  boxOf({ layout: parseLayout(layout), width, height });

function randomPoints(count: number, layout: string): PointSet {
  const random = randomStream('walls', `${layout} ${count}`);
  return {
    x: Float64Array.from({ length: count }, () => random.between(0, 31)),
    y: Float64Array.from({ length: count }, () => random.between(0, 23)),
  };
}

/** By definition: the cell of the least d^2 - r^2 of all copies, and the least distance to a wall of it. */
function bruteAt(points: PointSet, layout: string, x: number, y: number, radii?: number[]) {
  const { ax, ay, bx, by } = boxFor(layout).lattice;
  const copies: { point: number; dx: number; dy: number; power: number }[] = [];
  for (let m = -4; m <= 4; m++)
    for (let n = -5; n <= 5; n++)
      for (let point = 0; point < points.x.length; point++) {
        const [dx, dy] = [points.x[point] + m * ax + n * bx - x, points.y[point] + m * ay + n * by - y];
        copies.push({ point, dx, dy, power: dx * dx + dy * dy - (radii?.[point] ?? 0) ** 2 });
      }
  copies.sort((a, b) => a.power - b.power);
  const [own, ...others] = copies;
  const walls = others.map((o) => (o.power - own.power) / (2 * Math.hypot(o.dx - own.dx, o.dy - own.dy)));
  return { cell: own.point, distance: Math.min(...walls), walls };
}

describe.each(LAYOUTS)('walls over %s', (layout) => {
  const box = boxFor(layout);
  it.each([1, 2, 7, 60])('of %d cells are where the definition has them', (count) => {
    const points = randomPoints(count, layout);
    const walls = cellWalls(indexPoints(box, points));
    const random = randomStream(layout, 'places');
    for (let k = 0; k < 60; k++) {
      const [x, y] = [random.between(-20, 50), random.between(-20, 50)];
      const [expected, found] = [bruteAt(points, layout, x, y), wallAt(walls, x, y, 0, noWall())];
      expect(found.cell).toBe(expected.cell);
      expect(found.distance).toBeCloseTo(expected.distance, 9);
      expect(found.rounded).toBe(found.distance);
    }
  });

  it('run between circles of different size, and cells without room are none', () => {
    const points = randomPoints(60, layout);
    const random = randomStream(layout, 'radii');
    const radii = Array.from({ length: 60 }, () => random.between(0.2, 5));
    const walls = cellWalls(indexPoints(box, points), radii);
    const seen = new Set<number>();
    for (let k = 0; k < 400; k++) {
      const [x, y] = [random.between(-20, 50), random.between(-20, 50)];
      const [expected, found] = [bruteAt(points, layout, x, y, radii), wallAt(walls, x, y, 0, noWall())];
      expect(found.cell).toBe(expected.cell);
      expect(found.distance).toBeCloseTo(expected.distance, 8);
      seen.add(found.cell);
    }
    const roomless = radii.filter((_, cell) => walls.starts[cell] === walls.starts[cell + 1]).length;
    expect(roomless).toBeGreaterThan(0);
    expect(seen.size).toBeLessThanOrEqual(60 - roomless);
  });
});

it('finds walls of points far off, where most points stand in a clump', () => {
  const random = randomStream('walls', 'clump');
  const inClump = () => Float64Array.from({ length: 60 }, (_, k) => (k === 0 ? 15 : random.between(1, 2)));
  const points = { x: inClump(), y: inClump() };
  const walls = cellWalls(indexPoints(boxFor('drop:1/2'), points));
  for (let k = 0; k < 80; k++) {
    const [x, y] = [random.between(-20, 50), random.between(-20, 50)];
    const [expected, found] = [bruteAt(points, 'drop:1/2', x, y), wallAt(walls, x, y, 0, noWall())];
    expect([found.cell, found.distance.toFixed(8)]).toEqual([expected.cell, expected.distance.toFixed(8)]);
  }
});

/** A square grid of points 10 mm apart: the cells are squares, their walls 5 mm off. */
function squares() {
  const points = { x: Float64Array.of(5, 15, 25, 5, 15, 25), y: Float64Array.of(5, 5, 5, 15, 15, 15) };
  return cellWalls(indexPoints(boxFor('straight', 30, 20), points));
}

describe('the distance to a wall', () => {
  it('is the true one where F2 - F1 is not', () => {
    // 4 mm up from the middle of the wall between the points at (5, 5) and (15, 5), 1 mm from it.
    const found = wallAt(squares(), 9, 8, 0, noWall());
    expect([found.cell, found.distance]).toEqual([0, 1]);
    expect(Math.hypot(6, 3) - Math.hypot(4, 3)).toBeCloseTo(1.708, 3);
  });

  it('is 0 at walls and rounds corners: below the true one by r ln 2 on the diagonal, by nothing on a side', () => {
    const walls = squares();
    const r = 0.5;
    expect(wallAt(walls, 10, 5, r, noWall()).rounded).toBeCloseTo(0, 9);
    // Two walls are 2 mm off, two 8 mm: 2 - r ln(2 + 2 exp(-6 / r)).
    expect(wallAt(walls, 8, 8, r, noWall()).rounded).toBeCloseTo(2 - r * Math.log(2), 4);
    expect(wallAt(walls, 8, 5, r, noWall()).rounded).toBeCloseTo(2, 2);
    expect(wallAt(walls, 9.9, 9.9, r, noWall()).rounded).toBe(0);
  });

  it('rounds within the bounds stated, without a jump over a wall', () => {
    const points = randomPoints(60, 'drop:1/2');
    const walls = cellWalls(indexPoints(boxFor('drop:1/2'), points));
    const r = 0.3;
    let [before, most] = [0, 0];
    for (let k = 0; k < 4000; k++) {
      const { cell, distance, rounded } = wallAt(walls, 0.01 * k, 3 + 0.004 * k, r, noWall());
      const sides = walls.starts[cell + 1] - walls.starts[cell];
      expect(rounded).toBeLessThanOrEqual(distance);
      expect(rounded).toBeGreaterThanOrEqual(Math.max(0, distance - r * Math.log(sides)) - 1e-12);
      if (k > 0) most = Math.max(most, Math.abs(rounded - before));
      before = rounded;
    }
    // No steeper than a distance: 0.0108 mm a step.
    expect(most).toBeLessThan(Math.hypot(0.01, 0.004) + 1e-9);
  });
});

describe('the cover of a line', () => {
  it.each([
    [0.3, 0.085],
    [0.3, 0.339],
    [0.05, 0.339],
    [1, 0.5],
  ])('%d mm wide sums to its width on pixels of %d mm, wherever they lie', (width, pixel) => {
    for (const start of [0, 0.013, 0.11]) {
      let sum = 0;
      for (let k = -40; k <= 40; k++) sum += pixel * lineCover(Math.abs(start + k * pixel), width, pixel);
      expect(sum).toBeCloseTo(width, 9);
    }
  });
  it('is whole inside and none outside', () => {
    expect([lineCover(0, 1, 0.25), lineCover(0.75, 1, 0.25), lineCover(0.5, 1, 0.25)]).toEqual([1, 0, 0.5]);
  });
});
