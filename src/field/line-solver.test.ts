import { describe, expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { diffuseLines, openLineStore, solveCyclic } from './line-solver.ts';
import { linesAlong } from './lines.ts';
import { cellIndex, type FieldShape, fieldShape } from './periodic.ts';

const LAYOUTS = ['straight', 'drop:1/2', 'drop:1/3', 'drop:2/5', 'brick:1/2', 'brick:2/5'];

function shapeOf(layout: string, width: number, height: number): FieldShape {
  return fieldShape(boxOf({ layout: parseLayout(layout), width, height }), 1);
}

/** Numbers that look random, 0..1. */
function mixed(length: number, salt = 1): Float64Array {
  return Float64Array.from(
    { length },
    (_, k) => Math.abs(Math.sin(k * 12.9898 + salt * 78.233) * 43758.5453) % 1,
  );
}

/** Plain elimination with pivots, to judge the clever solver by. */
function solveDense(matrix: number[][], right: number[]): number[] {
  const rows = matrix.map((row, k) => [...row, right[k]]);
  const n = rows.length;
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let r = k + 1; r < n; r++) if (Math.abs(rows[r][k]) > Math.abs(rows[pivot][k])) pivot = r;
    [rows[k], rows[pivot]] = [rows[pivot], rows[k]];
    for (let r = k + 1; r < n; r++) {
      const share = rows[r][k] / rows[k][k];
      for (let c = k; c <= n; c++) rows[r][c] -= share * rows[k][c];
    }
  }
  const u = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--) {
    u[k] = rows[k][n];
    for (let c = k + 1; c < n; c++) u[k] -= rows[k][c] * u[c];
    u[k] /= rows[k][k];
  }
  return u;
}

describe('a cyclic system', () => {
  it.each([1, 2, 3, 4, 17, 60])('of %i cells comes out as by plain elimination', (n) => {
    const store = openLineStore(n);
    store.lower.set(mixed(n, 1).map((value) => value - 0.7));
    store.upper.set(mixed(n, 2).map((value) => value - 0.4));
    store.diagonal.set(mixed(n, 3).map((value) => 2 + value));
    store.right.set(mixed(n, 4).map((value) => value - 0.5));
    solveCyclic(store, n);
    const matrix = Array.from({ length: n }, () => new Array<number>(n).fill(0));
    for (let k = 0; k < n; k++) {
      matrix[k][(k + n - 1) % n] += store.lower[k];
      matrix[k][k] += store.diagonal[k];
      matrix[k][(k + 1) % n] += store.upper[k];
    }
    const dense = solveDense(matrix, [...store.right]);
    for (let k = 0; k < n; k++) expect(store.solution[k]).toBeCloseTo(dense[k], 11);
  });
});

describe.each(LAYOUTS)('diffusion along the lines of %s', (layout) => {
  const shape = shapeOf(layout, 10, 15);
  const { width, height } = shape;

  it.each(['x', 'y'] as const)('along %s is the dense solution, keeps sum and range', (axis) => {
    const lines = linesAlong(shape, axis);
    const values = mixed(width * height);
    const conductance = mixed(width * height, 5).map((value) => 40 * value * value);
    const start = values.slice();
    const flux = new Float64Array(values.length);
    diffuseLines(lines, values, conductance, openLineStore(lines.length), flux);
    const matrix = start.reduce<number[][]>((rows, _, k) => {
      rows.push(new Array<number>(start.length).fill(0));
      rows[k][k] = 1;
      return rows;
    }, []);
    for (let j = 0; j < height; j++) {
      for (let i = 0; i < width; i++) {
        const k = i + j * width;
        const n = axis === 'x' ? cellIndex(shape, i + 1, j) : cellIndex(shape, i, j + 1);
        matrix[k][k] += conductance[k];
        matrix[k][n] -= conductance[k];
        matrix[n][n] += conductance[k];
        matrix[n][k] -= conductance[k];
      }
    }
    const dense = solveDense(matrix, [...start]);
    for (let k = 0; k < start.length; k++) expect(values[k]).toBeCloseTo(dense[k], 11);
    const sum = (list: ArrayLike<number>) => Array.from(list).reduce((total, value) => total + value, 0);
    expect(Math.abs(sum(values) - sum(start))).toBeLessThan(1e-12 * start.length);
    expect(Math.max(...values)).toBeLessThanOrEqual(Math.max(...start) + 1e-12);
    expect(Math.min(...values)).toBeGreaterThanOrEqual(Math.min(...start) - 1e-12);
    expect(flux.some((through) => Math.abs(through) > 1e-3)).toBe(true);
  });

  it('moved by whole cells, the field moves and nothing else', () => {
    const start = mixed(width * height);
    const moved = new Float64Array(start.length);
    const place = (i: number, j: number) => cellIndex(shape, i + 7, j - 4);
    const settle = (values: Float64Array) => {
      for (const axis of ['x', 'y'] as const) {
        const lines = linesAlong(shape, axis);
        diffuseLines(lines, values, new Float64Array(values.length).fill(3), openLineStore(lines.length));
      }
      return values;
    };
    for (let j = 0; j < height; j++)
      for (let i = 0; i < width; i++) moved[place(i, j)] = start[i + j * width];
    settle(start);
    settle(moved);
    for (let j = 0; j < height; j++)
      for (let i = 0; i < width; i++) expect(moved[place(i, j)]).toBeCloseTo(start[i + j * width], 13);
  });
});

describe('lines', () => {
  it.each([
    ['drop:2/5', 'x', 3, 50],
    ['drop:2/5', 'y', 10, 15],
    ['brick:1/2', 'y', 5, 30],
    ['brick:1/2', 'x', 15, 10],
  ] as const)('of %s along %s: %i of %i cells', (layout, axis, count, length) => {
    const lines = linesAlong(shapeOf(layout, 10, 15), axis);
    expect([lines.count, lines.length]).toEqual([count, length]);
    expect(new Set(lines.cells).size).toBe(150);
  });
});

describe('the heat kernel', () => {
  // theta_3(pi x, exp(-4 pi^2 tau)): Jacobi's theta function, from mpmath 1.3.0.
  const KERNEL: [number, number[]][] = [
    [0.005, [3.98942280401, 3.52065326764, 2.41970724519, 0.175283004938]],
    [0.01, [2.82094791782, 2.65003532389, 2.19695645187, 0.591305009699]],
    [0.05, [1.27856699942, 1.26482716996, 1.22499304623, 0.999255305388]],
  ];
  const PLACES = [0, 0.05, 0.1, 0.25];

  it.each(KERNEL)('on a loop at time %f', (time, table) => {
    const n = 400;
    const shape = shapeOf('straight', n, 1);
    const lines = linesAlong(shape, 'x');
    const values = new Float64Array(n);
    values[0] = n;
    const steps = 1500;
    const conductance = new Float64Array(n).fill((time / steps) * n * n);
    const store = openLineStore(n);
    for (let step = 0; step < steps; step++) diffuseLines(lines, values, conductance, store);
    table.forEach((expected, k) => {
      expect(Math.abs(values[PLACES[k] * n] / expected - 1)).toBeLessThan(3e-3);
    });
    expect(values.reduce((total, value) => total + value, 0) / n).toBeCloseTo(1, 12);
  });

  it('runs around the joined rows of a half-drop as around one loop of twice the width', () => {
    const shape = shapeOf('drop:1/2', 200, 2);
    const lines = linesAlong(shape, 'x');
    const values = new Float64Array(400);
    values[0] = 400;
    const store = openLineStore(lines.length);
    const conductance = new Float64Array(400).fill((0.05 / 1500) * 400 * 400);
    for (let step = 0; step < 1500; step++) diffuseLines(lines, values, conductance, store);
    expect(values[20]).toBeCloseTo(1.26482716996, 2);
    expect(values[cellIndex(shape, 300, 0)]).toBeCloseTo(0.999255305388, 2);
  });

  it('lets wave 1 decay by 1 / (1 + 4 r sin^2(pi / n)) a step', () => {
    const n = 64;
    const lines = linesAlong(shapeOf('straight', n, 1), 'x');
    const wave = Float64Array.from({ length: n }, (_, k) => Math.cos((2 * Math.PI * k) / n));
    const start = wave.slice();
    diffuseLines(lines, wave, new Float64Array(n).fill(50), openLineStore(n));
    const factor = 1 / (1 + 200 * Math.sin(Math.PI / n) ** 2);
    for (let k = 0; k < n; k++) expect(wave[k]).toBeCloseTo(factor * start[k], 12);
  });
});
