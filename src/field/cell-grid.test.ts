import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { cornersOf, findCell, findCells, noCell } from './cell-grid.ts';
import { cellGrid, fieldShape } from './periodic.ts';
import { randomStream } from './random.ts';
import { neighboursOf } from './stencil.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:2/5', 'drop:1/3', 'brick:1/2', 'brick:2/3'];
const boxFor = (layout: string) => boxOf({ layout: parseLayout(layout), width: 97, height: 61 });

describe.each(LAYOUTS)('a grid of cells over %s', (layout) => {
  const box = boxFor(layout);
  const grid = cellGrid(box, { width: 7, height: 3 });
  const random = randomStream(layout, 'places');
  const anywhere = () => [random.between(-400, 400), random.between(-400, 400)] as const;

  it('has about the wanted sides and fills the box', () => {
    expect(Math.abs(Math.log(grid.mmPerCellX / 7))).toBeLessThan(0.2);
    expect(Math.abs(Math.log(grid.mmPerCellY / 3))).toBeLessThan(0.2);
    expect(grid.width * grid.mmPerCellX).toBeCloseTo(box.width, 9);
    expect(grid.height * grid.mmPerCellY).toBeCloseTo(box.height, 9);
  });

  it('gives every copy of a place one cell, at one place inside it', () => {
    const { ax, ay, bx, by } = box.lattice;
    for (let k = 0; k < 500; k++) {
      const [x, y] = anywhere();
      const home = findCell(grid, x, y, noCell());
      expect(home.cell).toBeLessThan(grid.width * grid.height);
      for (const [m, n] of [
        [1, 0],
        [0, 1],
        [-3, 7],
      ]) {
        const there = findCell(grid, x + m * ax + n * bx, y + m * ay + n * by, noCell());
        expect(there.cell).toBe(home.cell);
        expect(there.x).toBeCloseTo(home.x, 9);
        expect(there.y).toBeCloseTo(home.y, 9);
      }
    }
  });

  it('puts places on an edge into the next cell, in far copies too', () => {
    const { ax, ay, bx, by } = box.lattice;
    for (let i = 0; i < grid.width; i++) {
      const x = i * grid.mmPerCellX;
      const home = findCell(grid, x, 1, noCell()).cell;
      for (const far of [-1000, -77, 1, 3, 999]) {
        const there = findCell(grid, x + far * (ax + bx), 1 + far * (ay + by), noCell());
        expect(there.cell).toBe(home);
        expect(there.x).toBeLessThan(1e-6);
        expect(there.x).toBeGreaterThanOrEqual(0);
      }
    }
  });

  it('finds a row of cells with the bits of one after the other', () => {
    for (let k = 0; k < 40; k++) {
      const [x0, y] = anywhere();
      const step = random.between(0.05, 9);
      const cells = new Int32Array(64);
      const places = new Float64Array(64);
      const down = findCells(grid, x0, step, y, cells, places, 60, 3);
      for (let n = 0; n < 60; n++) {
        const one = findCell(grid, x0 + n * step, y, noCell());
        expect([cells[3 + n], places[3 + n], down]).toEqual([one.cell, one.x, one.y]);
      }
      expect([cells[2], cells[63]]).toEqual([0, 0]);
    }
  });

  it('numbers neighbours and corners as places a hair away find them', () => {
    const { left, right, above, below } = neighboursOf(grid);
    const corners = cornersOf(grid);
    const hair = 1e-3;
    const { mmPerCellX: wide, mmPerCellY: high } = grid;
    for (let j = 0; j < grid.height; j++) {
      for (let i = 0; i < grid.width; i++) {
        const at = (dx: number, dy: number) => findCell(grid, i * wide + dx, j * high + dy, noCell()).cell;
        const cell = at(hair, hair);
        expect([left[cell], right[cell]]).toEqual([at(-hair, hair), at(wide + hair, hair)]);
        expect([above[cell], below[cell]]).toEqual([at(hair, -hair), at(hair, high + hair)]);
        // A corner is named after the cell below and to the right of it.
        expect(corners.topLeft[cell]).toBe(cell);
        expect(corners.topRight[cell]).toBe(at(wide + hair, hair));
        expect(corners.bottomLeft[cell]).toBe(at(hair, high + hair));
        expect(corners.bottomRight[cell]).toBe(at(wide + hair, high + hair));
      }
    }
  });
});

it('takes an even count where a chequer asks for one', () => {
  const even = (count: number) => 2 * Math.round(count / 2);
  const grid = cellGrid(boxFor('straight'), { width: 14, height: 13 }, even);
  expect([grid.width, grid.height]).toEqual([6, 4]);
});

it('refuses sides that are none', () => {
  expect(() => cellGrid(boxFor('straight'), { width: 0, height: 1 })).toThrow('the width of a cell');
  expect(() => cellGrid(boxFor('straight'), { width: 1, height: Number.NaN })).toThrow(
    'the height of a cell',
  );
  expect(() => cellGrid(boxFor('straight'), { width: 1e-3, height: 1e-3 })).toThrow('at most');
});

it('tells whoever wanted to count stripes how, and that way is taken', () => {
  const box = boxFor('drop:1/2');
  expect(() => fieldShape(box, 1e-3)).toThrow('cellGrid(box, { width, height: box.height })');
  expect(cellGrid(box, { width: box.width / 30_000, height: box.height })).toMatchObject({ width: 30_000 });
});
