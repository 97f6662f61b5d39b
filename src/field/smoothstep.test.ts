import { describe, expect, it } from 'vitest';
import { smoothstep } from './smoothstep.ts';

describe('the soft step', () => {
  it('is level outside 0..1', () => {
    expect([-3, 0, 1, 7].map(smoothstep)).toEqual([0, 0, 1, 1]);
  });
  it('is the Hermite cubic from 0 to 1 that is level at both ends', () => {
    expect([0.25, 0.5, 0.75].map(smoothstep)).toEqual([0.15625, 0.5, 0.84375]);
    for (const end of [0, 1])
      expect(Math.abs(smoothstep(end + 1e-5) - smoothstep(end - 1e-5))).toBeLessThan(1e-9);
  });
});
