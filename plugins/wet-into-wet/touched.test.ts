import { describe, expect, it } from 'vitest';
import { touchedAt } from './touched.ts';

const fall = Array.from({ length: 400 }, (_, k) => 0.6 - k * 0.0015);
const steepest = (wet: number) => {
  const left = fall.map((amount) => touchedAt(amount, 0, wet, 0));
  return Math.max(...left.slice(1).map((value, k) => left[k] - value)) / Math.max(...left);
};

describe('paint that is touched in', () => {
  it('ends crisply in damp paper and feathers out where all was wet', () => {
    expect(steepest(0)).toBeGreaterThan(5 * steepest(1));
  });

  it('gathers along the front that damp paper stopped, and not in soaked paper', () => {
    const lined = (wet: number) => touchedAt(0.2, 0, wet, 0) / 0.2;
    expect(lined(0)).toBeGreaterThan(1.2);
    expect(lined(1)).toBeLessThan(1.05);
  });

  it('is nothing where nothing came, and never less', () => {
    expect(touchedAt(0, 3, 0.5, 1)).toBe(0);
    for (const amount of fall) expect(touchedAt(amount, -3, 0.3, 1)).toBeGreaterThanOrEqual(0);
  });
});
