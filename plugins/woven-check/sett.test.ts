import fc from 'fast-check';
import { boxOf, parseLayout } from 'tenter';
import { describe, expect, it } from 'vitest';
import { countThreads, readOrder } from './order.ts';
import { partsOf, snapSett } from './sett.ts';
import { weaveOf } from './weave.ts';

const LAYOUTS = [
  'straight',
  'drop:1/2',
  'drop:1/3',
  'drop:2/5',
  'brick:1/2',
  'brick:3/4',
  'drop:3/7',
] as const;
const wishes = fc.record({
  layout: fc.constantFrom(...LAYOUTS),
  width: fc.double({ min: 2, max: 640, noNaN: true }),
  height: fc.double({ min: 2, max: 640, noNaN: true }),
  order: fc.constantFrom('A1', 'A2 B2', 'A24 B4 A24 C2', 'A90 B3 A5 B3', 'A999 B1'),
  turned: fc.boolean(),
  perCm: fc.double({ min: 4, max: 60, noNaN: true }),
  weave: fc.constantFrom(2, 3, 4, 5, 24),
});

describe('a set of threads', () => {
  it('closes over every layout: each part of it holds whole orders and whole weaves', () => {
    const property = fc.property(wishes, ({ layout, width, height, order, turned, perCm, weave }) => {
      const box = boxOf({ layout: parseLayout(layout), width, height });
      const stripes = readOrder(order, 3, 'warp');
      for (const along of ['width', 'height'] as const) {
        const parts = partsOf(box, along);
        const sett = snapSett({ stripes, turned, perMm: perCm / 10, weave }, box[along], parts);
        const threads = countThreads(sett.stripes) * (turned ? 2 : 1);
        expect(sett.count % (parts * threads)).toBe(0);
        expect(sett.count % (parts * weave)).toBe(0);
        expect(sett.loop * parts).toBe(sett.count);
        expect(sett.pitch * sett.count).toBeCloseTo(box[along], 6);
        expect(sett.stripes.map(({ yarn }) => yarn)).toEqual(stripes.map(({ yarn }) => yarn));
      }
    });
    fc.assert(property, { seed: 27, numRuns: 400 });
  });
  it('is the one asked for where it fits', () => {
    const stripes = readOrder('A24 B24', 2, 'warp');
    const sett = snapSett({ stripes, turned: false, perMm: 2.4, weave: 2 }, 200, 1);
    expect(sett).toMatchObject({ count: 480, orders: 10, stripes });
  });
  it('gains or loses threads where it does not, and keeps the density within a tenth over a usual tile', () => {
    const stripes = readOrder('A90 B3 A5 B3', 2, 'warp');
    for (const length of [60, 100, 137, 240, 320, 640]) {
      const { pitch } = snapSett({ stripes, turned: false, perMm: 1.6, weave: 4 }, length, 2);
      expect(Math.abs(Math.log(1 / (1.6 * pitch)))).toBeLessThan(0.1);
    }
  });
});

describe('a weave', () => {
  it('is its floats over and under by turns', () => {
    expect([...weaveOf([1, 1])]).toEqual([1, 0]);
    expect([...weaveOf([2, 2])]).toEqual([1, 1, 0, 0]);
    expect([...weaveOf([3, 1, 1, 2])]).toEqual([1, 1, 1, 0, 1, 0, 0]);
    expect(() => weaveOf([2, 1, 2])).toThrow('received 2,1,2. Write for example 2,1,2,1.');
  });
});
