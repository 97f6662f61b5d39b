import { describe, expect, it } from 'vitest';
import { cubic, cubicShares } from './cubic.ts';

describe('the cubic between four values', () => {
  const parts = [0, 0.1, 0.25, 0.5, 0.7, 0.99, 1];
  it('goes through its two values and is exact for squares (Keys 1981: third order)', () => {
    const square = (x: number) => 3 - 2 * x + 0.7 * x * x;
    for (const u of parts)
      expect(cubic(square(-1), square(0), square(1), square(2), u)).toBeCloseTo(square(u), 12);
  });
  it('is the sum of its shares, times the gain', () => {
    const values = [0.3, -2, 5, 0.9] as const;
    for (const u of parts) {
      const shares = cubicShares(u, new Float64Array(4), 2.5);
      const sum = values.reduce((total, value, k) => total + value * shares[k], 0);
      expect(sum).toBeCloseTo(2.5 * cubic(...values, u), 12);
    }
  });
});
