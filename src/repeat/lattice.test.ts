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
