import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { indexPoints, nearestTwo, noneFound, visitCopies, visitNear } from './points.ts';
import { type PointSet, poissonPoints } from './poisson.ts';
import { randomStream } from './random.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:2/5', 'brick:1/2', 'brick:2/3'];
const boxFor = (layout: string, width = 17, height = 13) =>
  boxOf({ layout: parseLayout(layout), width, height });

function randomPoints(count: number): PointSet {
  const random = randomStream('points', String(count));
  const numbers = () => Float64Array.from({ length: count }, () => random.between(-5, 20));
  return { x: numbers(), y: numbers() };
}

/** Every copy of every point for some repeats around the box, with its distance from (x, y). */
function copiesAround({ x: xs, y: ys }: PointSet, layout: string, x: number, y: number) {
  const { ax, ay, bx, by } = boxFor(layout).lattice;
  const copies: { point: number; dx: number; dy: number; distance: number }[] = [];
  for (let m = -5; m <= 5; m++)
    for (let n = -8; n <= 8; n++)
      for (let point = 0; point < xs.length; point++) {
        const [dx, dy] = [xs[point] + m * ax + n * bx - x, ys[point] + m * ay + n * by - y];
        copies.push({ point, dx, dy, distance: Math.hypot(dx, dy) });
      }
  return copies.sort((a, b) => a.distance - b.distance);
}

describe.each(LAYOUTS)('points over %s', (layout) => {
  const box = boxFor(layout);

  it('all copies inside a rectangle are visited, each once', () => {
    const random = randomStream(layout, 'rectangles');
    for (let k = 0; k < 40; k++) {
      const [x, y] = [random.between(-10, 20), random.between(-10, 20)];
      const [left, top] = [random.between(-30, 10), random.between(-30, 10)];
      const [right, bottom] = [left + random.between(0, 40), top + random.between(0, 40)];
      const expected = copiesAround({ x: Float64Array.of(x), y: Float64Array.of(y) }, layout, 0, 0)
        .filter(({ dx, dy }) => dx >= left && dx < right && dy >= top && dy < bottom)
        .map(({ dx, dy }) => `${dx.toFixed(6)},${dy.toFixed(6)}`);
      const visited: string[] = [];
      visitCopies(box.lattice, x, y, { left, top, right, bottom }, (px, py) => {
        visited.push(`${px.toFixed(6)},${py.toFixed(6)}`);
      });
      expect(visited.sort()).toEqual(expected.sort());
    }
  });

  it.each([1, 3, 40])('of %d, those near a place are visited, each copy once', (count) => {
    const points = randomPoints(count);
    const index = indexPoints(box, points);
    const random = randomStream(layout, 'places');
    for (let k = 0; k < 12; k++) {
      const [x, y, radius] = [random.between(-12, 25), random.between(-12, 25), random.between(0, 22)];
      const name = (point: number, dx: number, dy: number) => `${point} ${dx.toFixed(6)},${dy.toFixed(6)}`;
      const visited: string[] = [];
      visitNear(index, x, y, radius, (point, dx, dy) => visited.push(name(point, dx, dy)));
      const expected = copiesAround(points, layout, x, y)
        .filter(({ distance }) => distance <= radius)
        .map(({ point, dx, dy }) => name(point, dx, dy));
      expect(visited.sort()).toEqual(expected.sort());
    }
  });

  it.each([1, 2, 7, 40])('of %d, the nearest two are the nearest two', (count) => {
    const points = randomPoints(count);
    const index = indexPoints(box, points);
    const random = randomStream(layout, 'places');
    const found = noneFound();
    for (let k = 0; k < 20; k++) {
      const [x, y] = [random.between(-12, 25), random.between(-12, 25)];
      const [first, second] = copiesAround(points, layout, x, y);
      nearestTwo(index, x, y, found);
      expect([found.first, found.second]).toEqual([first.point, second.point]);
      expect(Math.hypot(found.dx1, found.dy1)).toBeCloseTo(first.distance, 9);
      expect(found.square1).toBeCloseTo(first.distance ** 2, 9);
      expect(found.square2).toBeCloseTo(second.distance ** 2, 9);
      expect(Math.hypot(found.dx2, found.dy2)).toBeCloseTo(second.distance, 9);
    }
  });
});

it('an even set and a clumped one are both found whole', () => {
  const box = boxFor('drop:1/2', 30, 20);
  const even = poissonPoints(box, 1, randomStream('even', 'points'));
  const clumped = { x: even.x.map((x) => x / 10), y: even.y.map((y) => y / 10) };
  for (const points of [even, clumped]) {
    const { starts, order } = indexPoints(box, points);
    expect(starts[starts.length - 1]).toBe(points.x.length);
    expect(new Set(order).size).toBe(points.x.length);
  }
});
