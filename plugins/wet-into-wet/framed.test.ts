import { bicubicAt, bilinearAt, boxOf, fieldShape, parseLayout } from 'tenter';
import { describe, expect, it } from 'vitest';
import { addStrayingRow, frameField } from './framed.ts';

const shape = fieldShape(boxOf({ layout: parseLayout('drop:1/2'), width: 20, height: 16 }), 0.5);
const field = (at: (k: number) => number) => ({
  ...shape,
  values: Float32Array.from({ length: shape.width * shape.height }, (_, k) => at(k)),
});
const rows = (count: number, value: number) => new Float64Array(count).fill(value);

describe('a look-up that strays', () => {
  it('is the cubic of the field at the strayed place, over every seam', () => {
    const smooth = field((k) => Math.sin(0.3 * (k % shape.width)) + 0.02 * Math.floor(k / shape.width));
    const row = rows(60, 0);
    addStrayingRow(frameField(smooth), 0.1, 0.33, 0.2, rows(60, 1), rows(60, -1), 0.4, row, 60);
    let off = 0;
    for (let k = 0; k < 60; k++) off += Math.abs(row[k] - bicubicAt(smooth, 0.1 + 0.33 * k + 0.2, 0));
    // But for what is held between the four nearest.
    expect(off / 60).toBeLessThan(0.01);
  });

  it('never goes beyond the four nearest values: no halo beside an edge', () => {
    const edge = field((k) => (k % shape.width < 20 ? 0 : 5));
    const row = rows(80, 0);
    addStrayingRow(frameField(edge), 0.05, 0.24, 8, rows(80, 0), rows(80, 0), 0.4, row, 80);
    expect(Math.min(...row)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...row)).toBeLessThanOrEqual(5);
    // And it is a cubic: crisper than what lies straight between.
    const straight = row.map((_, k) => bilinearAt(edge, 0.05 + 0.24 * k, 8));
    expect(Math.max(...row.map((value, k) => Math.abs(value - straight[k])))).toBeGreaterThan(0.05);
  });
});
