import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countThreads, ORDER_PATTERN, readOrder, scaleOrder, threadsOf, writeOrder } from './order.ts';

const stripes = fc.array(fc.record({ yarn: fc.nat(7), threads: fc.integer({ min: 1, max: 999 }) }), {
  minLength: 1,
  maxLength: 64,
});

describe('an order of threads', () => {
  it('is read as it is written', () => {
    expect(readOrder('A24 B4 A24 C2', 3, 'warp')).toEqual([
      { yarn: 0, threads: 24 },
      { yarn: 1, threads: 4 },
      { yarn: 0, threads: 24 },
      { yarn: 2, threads: 2 },
    ]);
    fc.assert(
      fc.property(stripes, (given) => {
        const written = writeOrder(given);
        expect(written).toMatch(new RegExp(`^(?:${ORDER_PATTERN})$`));
        expect(readOrder(written, 8, 'warp')).toEqual(given);
      }),
      { seed: 27 },
    );
  });
  it.each([
    ['A2 D3', 3, 'letters from A to C for the warp of a cloth with 3 yarns but received "D3". Add a colour'],
    ['B1', 1, 'the letter A alone for the warp of a cloth with one yarn but received "B1"'],
  ])('%s with %i yarns is refused', (text, yarns, told) => {
    expect(() => readOrder(text, yarns, 'warp')).toThrow(told);
  });
  it('begins in the middle of its first stripe, or is read to its end and back', () => {
    const order = readOrder('A4 B2 C1', 3, 'warp');
    expect([...threadsOf(order, false)]).toEqual([0, 0, 1, 1, 2, 0, 0]);
    expect([...threadsOf(order, true)]).toEqual([0, 0, 0, 0, 1, 1, 2, 2, 1, 1, 0, 0, 0, 0]);
  });
  it('in other numbers of threads keeps its stripes, each within one thread of its share', () => {
    fc.assert(
      fc.property(stripes, fc.integer({ min: 0, max: 3000 }), (given, more) => {
        const threads = given.length + more;
        const scaled = scaleOrder(given, threads);
        expect(countThreads(scaled)).toBe(threads);
        expect(scaled.map(({ yarn }) => yarn)).toEqual(given.map(({ yarn }) => yarn));
        expect(Math.min(...scaled.map((stripe) => stripe.threads))).toBeGreaterThanOrEqual(1);
        const factor = threads / countThreads(given);
        const shares = given.map((stripe) => stripe.threads * factor);
        // Where none would be lost by rounding down, the largest remainders are off by less than a thread.
        if (Math.min(...shares) < 1) return;
        for (const [index, share] of shares.entries())
          expect(Math.abs(scaled[index].threads - share)).toBeLessThan(1);
      }),
      { seed: 27 },
    );
  });
});
