import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { latticeNoise, NOISE_DEVIATION, noiseAt } from './noise.ts';
import { addNoiseRow } from './noise-row.ts';
import {
  addBicubicRow,
  addBilinearRow,
  bakeField,
  bicubicAt,
  bilinearAt,
  cellIndex,
  emptyField,
  fieldShape,
  type PeriodicField,
} from './periodic.ts';
import { randomStream } from './random.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:1/3', 'drop:2/5', 'brick:1/2', 'brick:2/3'];
const boxFor = (layout: string, width = 13, height = 11) =>
  boxOf({ layout: parseLayout(layout), width, height });

function randomField(layout: string, mmPerCell = 0.9): PeriodicField {
  const field = emptyField(boxFor(layout), mmPerCell);
  const random = randomStream(layout, 'values');
  for (let k = 0; k < field.values.length; k++) field.values[k] = random.normal();
  return field;
}

const centre = (field: PeriodicField, i: number, j: number): [number, number] => [
  (i + 0.5) * field.mmPerCellX,
  (j + 0.5) * field.mmPerCellY,
];

describe.each(LAYOUTS)('a periodic field over %s', (layout) => {
  const box = boxFor(layout);
  const { ax, ay, bx, by } = box.lattice;
  const samplers = [
    ['bilinear', bilinearAt, addBilinearRow],
    ['bicubic', bicubicAt, addBicubicRow],
  ] as const;

  it.each([0.07, 0.9, 3, 40])('of cells of %d mm has whole lattice vectors that are the box', (mmPerCell) => {
    for (const round of [Math.round, Math.ceil]) {
      const { width, height, lattice, mmPerCellX, mmPerCellY } = fieldShape(box, mmPerCell, round);
      expect(Object.values(lattice).every(Number.isInteger)).toBe(true);
      expect(lattice.ax).toBe(width);
      expect(lattice.by).toBe(height);
      expect(lattice.ax * mmPerCellX).toBeCloseTo(ax, 9);
      expect(lattice.ay * mmPerCellY).toBeCloseTo(ay, 9);
      expect(lattice.bx * mmPerCellX).toBeCloseTo(bx, 9);
      if (round === Math.ceil)
        expect(Math.max(mmPerCellX, mmPerCellY)).toBeLessThanOrEqual(mmPerCell * (1 + 1e-12));
    }
  });

  it('finds every copy of a cell', () => {
    const field = randomField(layout);
    const { lattice, width, height } = field;
    const seen = new Set<number>();
    for (let j = 0; j < height; j++)
      for (let i = 0; i < width; i++) {
        const index = cellIndex(field, i, j);
        seen.add(index);
        expect(index).toBe(i + j * width);
        expect(cellIndex(field, i + 3 * lattice.ax - lattice.bx, j + 3 * lattice.ay - lattice.by)).toBe(
          index,
        );
      }
    expect(seen.size).toBe(width * height);
  });

  it.each(samplers)('%s: passes through the values, closes, and never leaps', (_name, at) => {
    const field = randomField(layout);
    const random = randomStream(layout, 'points');
    for (let k = 0; k < 300; k++) {
      const [i, j] = [random.below(80) - 40, random.below(80) - 40];
      const [cx, cy] = centre(field, i, j);
      expect(Math.abs(at(field, cx, cy) - field.values[cellIndex(field, i, j)])).toBeLessThan(1e-9);
      const [x, y] = [random.between(-50, 50), random.between(-50, 50)];
      const value = at(field, x, y);
      expect(Math.abs(at(field, x + 2 * ax - bx, y + 2 * ay - by) - value)).toBeLessThan(1e-9);
      expect(Math.abs(at(field, x + 1e-6, y - 1e-6) - value)).toBeLessThan(1e-4);
    }
  });

  it.each(samplers)('%s: by the row equals point by point', (_name, at, addRow) => {
    const field = randomField(layout);
    for (const step of [0.013, 0.9, 2.3, -0.4, 0]) {
      for (const y of [-31.7, 0, 4.4]) {
        const row = new Float64Array(502).fill(1);
        addRow(field, -17.3, step, y, 2, row, 500, 1);
        expect([row[0], row[501]]).toEqual([1, 1]);
        for (let k = 0; k < 500; k++) {
          expect(Math.abs(row[k + 1] - 1 - 2 * at(field, -17.3 + k * step, y))).toBeLessThan(1e-9);
        }
      }
    }
  });

  it('brings a baked noise back within the stated error', () => {
    const noise = latticeNoise(box.lattice, { along: 2, across: 2 }, randomStream(layout, 'noise'));
    const field = bakeField(box, 0.25, (x0, step, y, row, count, offset) =>
      addNoiseRow(noise, x0, step, y, 1, row, count, offset),
    );
    const random = randomStream(layout, 'baked');
    for (let k = 0; k < 2000; k++) {
      const [x, y] = [random.between(-50, 50), random.between(-50, 50)];
      const error = Math.abs(bicubicAt(field, x, y) - noiseAt(noise, x, y));
      expect(error).toBeLessThan(0.04 * NOISE_DEVIATION);
    }
  });
});

describe('between the values', () => {
  // What the two formulas promise: bilinear takes planes as they are, Catmull and Rom's cubic also parabolas.
  const field = emptyField(boxFor('straight', 40, 40), 1);
  const { values, width } = field;
  const fill = (value: (x: number, y: number) => number) => {
    for (let k = 0; k < values.length; k++) values[k] = value((k % width) + 0.5, Math.floor(k / width) + 0.5);
  };

  it('a plane comes back as it is', () => {
    const plane = (x: number, y: number) => 3 * x - 2 * y + 1;
    fill(plane);
    expect(bilinearAt(field, 17.3, 20.9)).toBeCloseTo(plane(17.3, 20.9), 9);
    expect(bicubicAt(field, 17.3, 20.9)).toBeCloseTo(plane(17.3, 20.9), 9);
  });

  it('a parabola comes back as it is from the cubic, not from straight lines', () => {
    const parabola = (x: number, y: number) => x * x + x * y - 2 * y * y;
    fill(parabola);
    expect(bicubicAt(field, 17.3, 20.9)).toBeCloseTo(parabola(17.3, 20.9), 9);
    expect(Math.abs(bilinearAt(field, 17.3, 20.9) - parabola(17.3, 20.9))).toBeGreaterThan(0.01);
  });
});
