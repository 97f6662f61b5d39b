import { bilinearAt, boxOf, fieldShape, fractalNoise, parseLayout, randomStream } from 'tenter';
import { describe, expect, it } from 'vitest';
import { drawStreaks } from './streaks.ts';

const box = boxOf({ layout: parseLayout('drop:1/2'), width: 60, height: 50 });
const shape = fieldShape(box, 0.5);
const noise = fractalNoise(
  box.lattice,
  { along: 2, across: 2 },
  { octaves: 2, gain: 0.7 },
  randomStream('t', 'n'),
);
const even = (value: number) => ({
  ...shape,
  values: new Float32Array(shape.width * shape.height).fill(value),
});
const drawn = (x: number, y: number) =>
  drawStreaks(shape, { x: even(x), y: even(y), pace: even(1) }, noise, 0);

/** How alike the field is to itself so far away. */
function likeness(field: ReturnType<typeof drawn>, dx: number, dy: number): number {
  let [both, own] = [0, 0];
  for (let k = 0; k < field.values.length; k++) {
    const x = ((k % field.width) + 0.5) * field.mmPerCellX;
    const y = (Math.floor(k / field.width) + 0.5) * field.mmPerCellY;
    both += field.values[k] * bilinearAt(field, x + dx, y + dy);
    own += field.values[k] ** 2;
  }
  return both / own;
}

describe('filaments', () => {
  // Cabral and Leedom 1993: a mean along the current is alike along it and not across.
  it.each([
    ['to the right', 1, 0],
    ['downward', 0, 1],
  ])('are drawn out along a current %s, over the seam as well', (_, x, y) => {
    const field = drawn(x, y);
    expect(likeness(field, 2 * x, 2 * y)).toBeGreaterThan(0.4);
    expect(likeness(field, 2 * y, 2 * x)).toBeLessThan(0.15);
  });

  it('are hardly longer than wide where water stood, and of deviation 1', () => {
    const field = drawStreaks(shape, { x: even(1), y: even(0), pace: even(0) }, noise, 0);
    expect(Math.abs(likeness(field, 1, 0) - likeness(field, 0, 1))).toBeLessThan(0.35);
    const square = field.values.reduce((sum, value) => sum + value * value, 0) / field.values.length;
    expect(square).toBeCloseTo(1, 4);
  });
});
