import { expect, it } from 'vitest';
import { cutOutline, farthestCorner, outlineArea, squareOutline } from './outline.ts';

it('cuts a square down to a triangle, whose area and centre of mass are known', () => {
  const diagonal = { x: Math.SQRT1_2, y: Math.SQRT1_2, half: 0 };
  const corners = cutOutline(squareOutline(3), diagonal);
  const { area, x, y } = outlineArea(corners);
  expect([area, x, y].map((value) => Number(value.toFixed(9)))).toEqual([18, -1, -1]);
  expect(farthestCorner(corners)).toBeCloseTo(Math.hypot(3, 3), 9);
  expect(corners.filter(({ side }) => side === diagonal).length).toBe(1);
});

it('leaves nothing outside, and all where a side lies beyond', () => {
  expect(cutOutline(squareOutline(3), { x: 1, y: 0, half: -4 })).toEqual([]);
  expect(outlineArea([])).toEqual({ area: 0, x: 0, y: 0 });
  expect(outlineArea(cutOutline(squareOutline(3), { x: 1, y: 0, half: 4 })).area).toBe(36);
});
