import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { advectLines, openAdvectStore } from './advect.ts';
import { linesAlong } from './lines.ts';
import { cellIndex, fieldShape } from './periodic.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3'];
const shapeOf = (layout: string, width: number, height: number) =>
  fieldShape(boxOf({ layout: parseLayout(layout), width, height }), 1);
const sum = (values: Float64Array) => values.reduce((total, value) => total + value, 0);

describe.each(LAYOUTS)('carried over %s', (layout) => {
  const shape = shapeOf(layout, 30, 30);

  it('by whole cells, every value arrives exactly where the lattice says', () => {
    const lines = linesAlong(shape, 'x');
    const start = Float64Array.from({ length: 900 }, (_, k) => (k * 37) % 101);
    const values = start.slice();
    for (let step = 0; step < 40; step++)
      advectLines(lines, values, new Float64Array(900).fill(1), openAdvectStore(lines.length));
    for (let j = 0; j < 30; j++)
      for (let i = 0; i < 30; i++)
        expect(values[cellIndex(shape, i + 40, j)]).toBeCloseTo(start[i + j * 30], 10);
  });

  it.each(['x', 'y'] as const)('in any flow along %s the sum stays and nothing falls below zero', (axis) => {
    const lines = linesAlong(shape, axis);
    const values = Float64Array.from({ length: 900 }, (_, k) => (k % 7 === 0 ? 5 : 0));
    const before = sum(values);
    const start = values.slice();
    // Faces that part and meet, each within half a cell, so that no cell is emptied.
    const courant = Float64Array.from({ length: 900 }, (_, k) => 0.5 * Math.sin(k * 2.3));
    for (let step = 0; step < 60; step++) advectLines(lines, values, courant, openAdvectStore(lines.length));
    expect(Math.abs(sum(values) - before)).toBeLessThan(1e-9);
    expect(Math.min(...values)).toBeGreaterThanOrEqual(0);
    expect(values.filter((value, k) => Math.abs(value - start[k]) > 1).length).toBeGreaterThan(100);
  });
});

describe('in a uniform flow', () => {
  const lines = linesAlong(shapeOf('straight', 100, 1), 'x');

  it.each([0.3, -0.6])('a box stays between its own levels at Courant number %f', (c) => {
    const values = Float64Array.from({ length: 100 }, (_, k) => (k >= 30 && k < 60 ? 1 : 0));
    for (let step = 0; step < 200; step++)
      advectLines(lines, values, new Float64Array(100).fill(c), openAdvectStore(100));
    expect(Math.min(...values)).toBeGreaterThanOrEqual(-1e-12);
    expect(Math.max(...values)).toBeLessThanOrEqual(1 + 1e-12);
    expect(sum(values)).toBeCloseTo(30, 10);
  });

  it('twice the cells give about a quarter of the error or less than first order would', () => {
    const errorOf = (n: number) => {
      const line = linesAlong(shapeOf('straight', n, 1), 'x');
      const profile = (k: number) => 2 + Math.sin((2 * Math.PI * (k + 0.5)) / n);
      const values = Float64Array.from({ length: n }, (_, k) => profile(k));
      const courant = new Float64Array(n).fill(0.4);
      for (let step = 0; step < n / 0.4; step++) advectLines(line, values, courant, openAdvectStore(n));
      return values.reduce((total, value, k) => total + Math.abs(value - profile(k)), 0) / n;
    };
    expect(errorOf(160) / errorOf(80)).toBeLessThan(0.36);
  });
});
