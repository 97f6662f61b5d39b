import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bandOf } from '../testing/wood-grain.ts';
import { grainBand, windowsOf } from './frame.ts';

describe('the windows of a band', () => {
  it('cover each of its pixels once, inside the box, under any lattice', () => {
    const whole = fc.integer({ min: 1, max: 40 });
    const offset = fc.integer({ min: -90, max: 90 });
    fc.assert(
      fc.property(
        whole,
        whole,
        fc.nat(39),
        fc.boolean(),
        offset,
        offset,
        whole,
        whole,
        (w, h, s, drop, x, y, c, r) => {
          const lattice = drop ? { ax: w, ay: s % h, bx: 0, by: h } : { ax: w, ay: 0, bx: s % w, by: h };
          const band = grainBand(bandOf(x, y, c, r, 1), false);
          const seen = new Uint8Array(c * r);
          for (const { i0, i1, j0, j1, at } of windowsOf(band, lattice)) {
            expect(i0 >= 0 && i1 <= w && j0 >= 0 && j1 <= h).toBe(true);
            for (let j = j0; j < j1; j++) for (let i = i0; i < i1; i++) seen[at + (j - j0) * c + (i - i0)]++;
          }
          expect(seen.every((count) => count === 1)).toBe(true);
        },
      ),
      { numRuns: 300, seed: 7 },
    );
  });

  it('number a pixel and its copies alike', () => {
    const lattice = { ax: 30, ay: 12, bx: 0, by: 24 };
    const [home] = windowsOf(grainBand(bandOf(7, 5, 1, 1, 1), false), lattice);
    const [copy] = windowsOf(grainBand(bandOf(7 + 3 * 30, 5 + 3 * 12 - 4 * 24, 1, 1, 1), false), lattice);
    expect([copy.i0, copy.j0]).toEqual([home.i0, home.j0]);
  });
});
