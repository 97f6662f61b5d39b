import { describe, expect, it } from 'vitest';
import { latticeOf, shortestWay, wrapPoint } from './lattice.ts';
import { parseLayout } from './layout.ts';

const LATTICES = ['straight', 'drop:1/2', 'drop:1/3', 'drop:2/5', 'brick:1/2', 'brick:2/5'].flatMap(
  (layout) =>
    [
      [40, 30],
      [12, 60],
      [60, 12],
    ].map(([width, height]) => [layout, width, height] as const),
);

describe('shortestWay', () => {
  it.each(LATTICES)('is the shortest of all copies, %s of %d x %d', (layout, width, height) => {
    const lattice = latticeOf(parseLayout(layout), width, height);
    for (let k = 0; k < 300; k++) {
      // Points all over several boxes, by two steps that share no measure.
      const [x, y] = [((k * 37.123) % 240) - 120, ((k * 91.77) % 240) - 120];
      let least = Number.POSITIVE_INFINITY;
      for (let m = -30; m <= 30; m++)
        for (let n = -30; n <= 30; n++)
          least = Math.min(
            least,
            Math.hypot(x - m * lattice.ax - n * lattice.bx, y - m * lattice.ay - n * lattice.by),
          );
      const [dx, dy] = shortestWay(lattice, x, y);
      expect(Math.hypot(dx, dy)).toBeCloseTo(least, 9);
      // A copy of the same vector.
      const [ownX, ownY] = wrapPoint(lattice, x + 0.123, y + 0.123);
      const [copyX, copyY] = wrapPoint(lattice, dx + 0.123, dy + 0.123);
      const [offX, offY] = shortestWay(lattice, ownX - copyX, ownY - copyY);
      expect(Math.hypot(offX, offY)).toBeLessThan(1e-9);
    }
  });
});

/** The doubles next to a value, some steps either way, and what is next to nothing. */
function about(value: number): number[] {
  const bits = new BigInt64Array(new Float64Array([value]).buffer)[0];
  const steps = value === 0 ? [] : [-3n, -2n, -1n, 1n, 2n, 3n];
  const near = steps.map((step) => new Float64Array(new BigInt64Array([bits + step]).buffer)[0]);
  return [value, ...near, value - 1e-17, value + 1e-17, value - Number.MIN_VALUE, value - 1e-13];
}

describe('wrapPoint', () => {
  const sides = [40, 30, 0.1, 0.7, 1 / 3, 195.89869545087976, 640.123456];
  it.each(['straight', 'drop:1/2', 'drop:1/3', 'brick:2/5'])(
    'brings points at the edges of boxes inside the box, %s',
    (layout) => {
      for (const width of sides)
        for (const height of sides) {
          const lattice = latticeOf(parseLayout(layout), width, height);
          const edges = (size: number) => [-7, -3, -1, 0, 1, 2, 3, 5, 11].flatMap((k) => about(k * size));
          for (const x of edges(width))
            for (const y of edges(height)) {
              const [homeX, homeY] = wrapPoint(lattice, x, y);
              if (homeX >= 0 && homeX < width && homeY >= 0 && homeY < height) continue;
              expect.fail(`(${x}, ${y}) over ${width} x ${height} came home as (${homeX}, ${homeY})`);
            }
        }
    },
  );

  it('takes a point a hair before the first edge for the edge, in its own column', () => {
    const lattice = latticeOf(parseLayout('drop:1/2'), 40, 30);
    expect(wrapPoint(lattice, -1e-17, 7)).toEqual([0, 7]);
    expect(wrapPoint(lattice, 7, -1e-17)).toEqual([7, 0]);
    // The double before 40 is inside the box and stays what it is.
    expect(wrapPoint(lattice, 39.99999999999999, 7)).toEqual([39.99999999999999, 7]);
  });

  it.each(LATTICES)('gives a copy of the point, %s of %d x %d', (layout, width, height) => {
    const lattice = latticeOf(parseLayout(layout), width, height);
    for (const x of [-2, -1, 0, 1, 2].flatMap((k) => about(k * width)))
      for (const y of [-1, 0, 1].flatMap((k) => about(k * height))) {
        const [homeX, homeY] = wrapPoint(lattice, x, y);
        expect(Math.hypot(...shortestWay(lattice, homeX - x, homeY - y))).toBeLessThan(1e-9);
      }
  });
});
