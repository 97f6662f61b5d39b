import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { type CellLattice, cellCount, cellLattice, wrapCell } from './cells.ts';
import { randomStream } from './random.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:1/3', 'drop:2/5', 'drop:7/64', 'brick:1/2', 'brick:2/3'];
const latticeFor = (layout: string, width = 64, height = 50) =>
  boxOf({ layout: parseLayout(layout), width, height }).lattice;

/** Length along and across, mm, and direction, degrees, of a cell. */
function shapeOf({ sx, sy, tx, ty }: CellLattice) {
  const area = sx * ty - sy * tx;
  const edge = { x: ty / area, y: -tx / area };
  return {
    along: Math.hypot(edge.x, edge.y),
    across: Math.hypot(sy, sx) / Math.abs(area),
    direction: (Math.atan2(edge.y, edge.x) * 180) / Math.PI,
  };
}

describe.each(LAYOUTS)('cells over %s', (layout) => {
  const lattice = latticeFor(layout);

  it.each([
    [3, 3, 0],
    [12, 0.7, 25],
    [9, 2, 90],
    [300, 1, 45],
    [300, 300, 10],
    [0.3, 7, -60],
  ])(
    'of %d x %d mm at %d degrees: the vectors are whole and wrap to the same cell',
    (along, across, direction) => {
      const cells = cellLattice(lattice, { along, across, direction });
      const random = randomStream(layout, 'cells');
      for (const [x, y] of [
        [lattice.ax, lattice.ay],
        [lattice.bx, lattice.by],
      ]) {
        const [i, j] = [cells.sx * x + cells.sy * y, cells.tx * x + cells.ty * y];
        expect(Math.abs(i - Math.round(i)) + Math.abs(j - Math.round(j))).toBeLessThan(1e-9);
        for (let k = 0; k < 50; k++) {
          const [p, q] = [random.below(2000) - 1000, random.below(2000) - 1000];
          expect(wrapCell(cells, p + Math.round(i), q + Math.round(j))).toBe(wrapCell(cells, p, q));
        }
      }
      // As many cells as the repeat's area holds of them: none is counted twice.
      const area = lattice.ax * lattice.by - lattice.ay * lattice.bx;
      expect(cellCount(cells)).toBe(Math.round(area * Math.abs(cells.sx * cells.ty - cells.sy * cells.tx)));
    },
  );

  it('keeps about the wanted shape where the repeat holds many cells', () => {
    for (const direction of [0, 20, -45, 90, 130]) {
      const shape = shapeOf(cellLattice(lattice, { along: 3, across: 0.8, direction }));
      expect(Math.abs(Math.log(shape.along / 3))).toBeLessThan(0.16);
      expect(Math.abs(Math.log(shape.across / 0.8))).toBeLessThan(0.16);
      const turned = shape.direction - direction;
      expect(Math.abs(turned - 180 * Math.round(turned / 180))).toBeLessThan(2);
    }
  });
});

it('lets no cell lean along the axes, except where its size would suffer', () => {
  for (const layout of ['straight', 'drop:1/2', 'drop:2/5', 'brick:1/2', 'brick:2/3']) {
    const cells = cellLattice(latticeFor(layout), { along: 1.9, across: 1.3 });
    expect([cells.sy, cells.tx]).toEqual([0, 0]);
  }
  const few = cellLattice(latticeFor('drop:2/5'), { along: 6, across: 6.6 });
  expect(few.tx).not.toBe(0);
  expect(shapeOf(few).across / 6.6).toBeCloseTo(1, 0.9);
});

it('keeps the direction of stretched cells on a repeat that is shorter than one of them', () => {
  const cells = cellLattice(latticeFor('straight', 20, 30), { along: 70, across: 2, direction: 20 });
  expect(Math.abs(shapeOf(cells).direction - 20)).toBeLessThan(6);
});
