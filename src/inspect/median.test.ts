import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { medianOf } from './median.ts';

/** By sorting, as the median is defined. */
function bySorting(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

it('is what sorting gives, for all values and for many that are the same', () => {
  const few = fc.array(fc.integer({ min: -3, max: 3 }), { minLength: 1, maxLength: 256 });
  const any = fc.array(fc.float({ noNaN: true, min: -100, max: 100 }), { minLength: 1, maxLength: 256 });
  fc.assert(
    fc.property(fc.oneof(few, any), (values) => {
      expect(medianOf(Float32Array.from(values)) + 0).toBe(bySorting(values) + 0);
    }),
    { numRuns: 2000 },
  );
});

it('takes as long for what is in order already', () => {
  const rising = Float32Array.from({ length: 256 }, (_, k) => k);
  expect(medianOf(rising.slice())).toBe(127.5);
  expect(medianOf(rising.slice().reverse())).toBe(127.5);
});
