import { describe, expect, it } from 'vitest';
import { wrapPoint } from '../repeat/lattice.ts';
import { parseLayout } from '../repeat/layout.ts';
import { type Box, boxOf } from '../repeat/repeat.ts';
import { type PointSet, poissonPoints, shortestVector } from './poisson.ts';
import { randomStream } from './random.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:1/3', 'drop:2/5', 'brick:1/2', 'brick:2/3'];
const boxFor = (layout: string, width = 40, height = 40) =>
  boxOf({ layout: parseLayout(layout), width, height });
const pointsFor = (box: Box, distance: number, seed = 'seed') =>
  poissonPoints(box, distance, randomStream(seed, 'points'));

/** To the nearest copy of any point, by trying them all. */
function distanceTo({ x: xs, y: ys }: PointSet, { lattice }: Box, x: number, y: number, except = -1): number {
  let least = Number.POSITIVE_INFINITY;
  for (let m = -2; m <= 2; m++)
    for (let n = -2; n <= 2; n++) {
      const [dx, dy] = [m * lattice.ax + n * lattice.bx - x, m * lattice.ay + n * lattice.by - y];
      for (let k = 0; k < xs.length; k++) {
        if (k === except && m === 0 && n === 0) continue;
        const square = (xs[k] + dx) ** 2 + (ys[k] + dy) ** 2;
        if (square < least) least = square;
      }
    }
  return Math.sqrt(least);
}

describe.each(LAYOUTS)('Poisson points over %s', (layout) => {
  const box = boxFor(layout);
  const points = pointsFor(box, 1);

  it('keep their distance over every seam', () => {
    for (let k = 0; k < points.x.length; k++) {
      expect(distanceTo(points, box, points.x[k], points.y[k], k)).toBeGreaterThanOrEqual(1 - 1e-9);
    }
  });

  // R. Bridson, Fast Poisson disk sampling (2007): no place is farther than 2r from a point.
  it('leave no gap wider than twice the distance', () => {
    for (let k = 0; k < 1500; k++) {
      const [x, y] = [(k % 50) * 0.8, Math.floor(k / 50) * 1.33];
      expect(distanceTo(points, box, x, y)).toBeLessThan(2);
    }
  });

  // Measured for this method with 30 tries on a torus of 40 distances: n r^2 / A = 0.615.
  it('are as dense as the method makes them', () => {
    expect(Math.abs(points.x.length / 1600 - 0.615)).toBeLessThan(0.012);
  });

  it('stand inside the box', () => {
    for (let k = 0; k < points.x.length; k++) {
      expect(wrapPoint(box.lattice, points.x[k], points.y[k])).toEqual([points.x[k], points.y[k]]);
    }
  });
});

describe('Poisson points', () => {
  it('are the same for the same seed, and others for another', () => {
    const box = boxFor('drop:1/2', 20, 20);
    expect(pointsFor(box, 1)).toEqual(pointsFor(box, 1));
    expect(pointsFor(box, 1)).not.toEqual(pointsFor(box, 1, 'other'));
  });

  it.each(LAYOUTS)('are at least one on a repeat of a few distances or less, %s', (layout) => {
    for (const distance of [3.1, 7, 11, 14, 80]) {
      const box = boxFor(layout, 13, 9);
      const points = pointsFor(box, distance);
      expect(points.x.length).toBeGreaterThan(0);
      if (shortestVector(box.lattice) < distance) expect(points.x.length).toBe(1);
      for (let k = 0; k < points.x.length && points.x.length > 1; k++) {
        expect(distanceTo(points, box, points.x[k], points.y[k], k)).toBeGreaterThanOrEqual(distance - 1e-9);
      }
    }
  });

  it('know the shortest way to a copy', () => {
    expect(shortestVector({ ax: 3, ay: 0, bx: 0, by: 4 })).toBe(3);
    expect(shortestVector({ ax: 3, ay: 5, bx: 0, by: 10 })).toBeCloseTo(Math.hypot(3, 5), 12);
    expect(shortestVector({ ax: 1, ay: 7, bx: 0, by: 8 })).toBeCloseTo(Math.SQRT2, 12);
  });
});
