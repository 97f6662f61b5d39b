import { describe, expect, it } from 'vitest';
import { pour, spotCells, spotGround } from './pour.ts';
import { LAYOUTS, mixed, shapeOf, sumOf } from './testing/sheets.ts';

describe.each(LAYOUTS)('a spot over %s', (layout) => {
  const shape = shapeOf(layout, 60, 60);
  const ground = spotGround({ ...shape, values: mixed(shape, 1).map((value) => 2 * value - 1) });

  it('covers its area, over every seam', () => {
    const onto = new Float32Array(3600);
    const spot = { x: 29.6, y: 0.3, radius: 6, soft: 1, rough: 0 };
    pour(spotCells([spot], ground), 2, onto);
    expect((sumOf(onto) * 0.25) / (2 * Math.PI * 36)).toBeCloseTo(1, 2);
  });

  it('that lies on another fills no cell twice', () => {
    const onto = new Float32Array(3600);
    const spot = { x: 15, y: 15, radius: 6, soft: 1, rough: 0.2 };
    pour(spotCells([spot, { ...spot, x: 17 }, spot], ground), 2, onto);
    expect(Math.max(...onto)).toBe(2);
  });

  it('has a ragged edge where it is rough', () => {
    const spot = { x: 15, y: 15, radius: 6, soft: 0.5, rough: 0.3 };
    const cells = new Set(spotCells([spot], ground).cells);
    const even = new Set(spotCells([{ ...spot, rough: 0 }], ground).cells);
    expect([...even].filter((cell) => !cells.has(cell)).length).toBeGreaterThan(20);
  });
});
