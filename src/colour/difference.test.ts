import { differenceCiede2000 } from 'culori';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { colourDifference, leastDifference } from './difference.ts';
import { parseHex } from './hex.ts';
import { type Lab, labOfSrgb } from './lab.ts';

/** Sharma, Wu and Dalal, Color Research and Application 30 (2005), Table 1: L1 a1 b1, L2 a2 b2, difference. */
const TABLE_1 = [
  [50, 2.6772, -79.7751, 50, 0, -82.7485, 2.0425],
  [50, 3.1571, -77.2803, 50, 0, -82.7485, 2.8615],
  [50, 2.8361, -74.02, 50, 0, -82.7485, 3.4412],
  [50, -1.3802, -84.2814, 50, 0, -82.7485, 1.0],
  [50, -1.1848, -84.8006, 50, 0, -82.7485, 1.0],
  [50, -0.9009, -85.5211, 50, 0, -82.7485, 1.0],
  [50, 0, 0, 50, -1, 2, 2.3669],
  [50, -1, 2, 50, 0, 0, 2.3669],
  [50, 2.49, -0.001, 50, -2.49, 0.0009, 7.1792],
  [50, 2.49, -0.001, 50, -2.49, 0.001, 7.1792],
  [50, 2.49, -0.001, 50, -2.49, 0.0011, 7.2195],
  [50, 2.49, -0.001, 50, -2.49, 0.0012, 7.2195],
  [50, -0.001, 2.49, 50, 0.0009, -2.49, 4.8045],
  [50, -0.001, 2.49, 50, 0.001, -2.49, 4.8045],
  [50, -0.001, 2.49, 50, 0.0011, -2.49, 4.7461],
  [50, 2.5, 0, 50, 0, -2.5, 4.3065],
  [50, 2.5, 0, 73, 25, -18, 27.1492],
  [50, 2.5, 0, 61, -5, 29, 22.8977],
  [50, 2.5, 0, 56, -27, -3, 31.903],
  [50, 2.5, 0, 58, 24, 15, 19.4535],
  [50, 2.5, 0, 50, 3.1736, 0.5854, 1.0],
  [50, 2.5, 0, 50, 3.2972, 0, 1.0],
  [50, 2.5, 0, 50, 1.8634, 0.5757, 1.0],
  [50, 2.5, 0, 50, 3.2592, 0.335, 1.0],
  [60.2574, -34.0099, 36.2677, 60.4626, -34.1751, 39.4387, 1.2644],
  [63.0109, -31.0961, -5.8663, 62.8187, -29.7946, -4.0864, 1.263],
  [61.2901, 3.7196, -5.3901, 61.4292, 2.248, -4.962, 1.8731],
  [35.0831, -44.1164, 3.7933, 35.0232, -40.0716, 1.5901, 1.8645],
  [22.7233, 20.0904, -46.694, 23.0331, 14.973, -42.5619, 2.0373],
  [36.4612, 47.858, 18.3852, 36.2715, 50.5065, 21.2231, 1.4146],
  [90.8027, -2.0831, 1.441, 91.1528, -1.6435, 0.0447, 1.4441],
  [90.9257, -0.5406, -0.9208, 88.6381, -0.8985, -0.7239, 1.5381],
  [6.7747, -0.2908, -2.4247, 5.8714, -0.0985, -2.2286, 0.6377],
  [2.0776, 0.0795, -1.135, 0.9033, -0.0636, -0.5514, 0.9082],
];

/**
 * In these pairs the hues stand exactly half a turn apart, so the last bit decides which way round
 * their mean lies; the other way gives the figure of the neighbouring row.
 */
const EITHER_WAY: Readonly<Record<number, number>> = { 10: 7.2195, 14: 4.7461 };

const RADIAN = Math.PI / 180;
const anyLab: fc.Arbitrary<Lab> = fc.record({
  L: fc.double({ min: 0, max: 100, noNaN: true }),
  a: fc.double({ min: -128, max: 128, noNaN: true }),
  b: fc.double({ min: -128, max: 128, noNaN: true }),
});

describe('CIEDE2000', () => {
  it.each(TABLE_1.map((row, index) => [index + 1, ...row]))('pair %i of Sharma, Wu and Dalal', (...row) => {
    const [pair, L1, a1, b1, L2, a2, b2, expected] = row;
    const [first, second] = [
      { L: L1, a: a1, b: b1 },
      { L: L2, a: a2, b: b2 },
    ];
    const near = (value: number) =>
      [expected, EITHER_WAY[pair] ?? expected].some((right) => Math.abs(value - right) < 0.00005001);
    expect(near(colourDifference(first, second)), `${colourDifference(first, second)}`).toBe(true);
    expect(near(colourDifference(second, first)), `${colourDifference(second, first)}`).toBe(true);
  });

  it('agrees with culori', () => {
    // Mode lab65: culori takes plain lab for D50 and would adapt it first.
    const theirs = differenceCiede2000();
    fc.assert(
      fc.property(anyLab, anyLab, (first, second) => {
        const [one, two] = [first, second].map(({ L, a, b }) => ({ mode: 'lab65' as const, l: L, a, b }));
        expect(colourDifference(first, second)).toBeCloseTo(theirs(one, two), 6);
      }),
      { numRuns: 2000, seed: 1, endOnFailure: true },
    );
  });

  // Computed with culori 4.0.2.
  it('between pure red and green', () => {
    const difference = colourDifference(labOfSrgb(parseHex('#f00')), labOfSrgb(parseHex('#0f0')));
    expect(Math.abs(difference - 86.6078)).toBeLessThan(0.02);
  });

  it('is never below its lower bound, near or far', () => {
    const span = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(anyLab, anyLab, span, (first, other, part) => {
        const toward = (from: number, to: number) => from + (to - from) * part * part;
        const second = {
          L: toward(first.L, other.L),
          a: toward(first.a, other.a),
          b: toward(first.b, other.b),
        };
        expect(leastDifference(first, second)).toBeLessThanOrEqual(colourDifference(first, second) + 1e-9);
      }),
      { numRuns: 20_000, seed: 2, endOnFailure: true },
    );
  });

  // About hue 275 degrees the twist makes some pairs look closer than their chroma and hue would say.
  it('is never below its lower bound among the blues', () => {
    for (let hue = 250; hue <= 300; hue += 5) {
      for (let turn = 0; turn < 360; turn += 5) {
        const first = { L: 40, a: 90 * Math.cos(hue * RADIAN), b: 90 * Math.sin(hue * RADIAN) };
        const second = {
          L: 40,
          a: first.a + 3 * Math.cos(turn * RADIAN),
          b: first.b + 3 * Math.sin(turn * RADIAN),
        };
        expect(leastDifference(first, second)).toBeLessThanOrEqual(colourDifference(first, second));
      }
    }
  });

  it('meets its lower bound between greys', () => {
    const [first, second] = [
      { L: 40, a: 0, b: 0 },
      { L: 55, a: 0, b: 0 },
    ];
    expect(leastDifference(first, second)).toBeCloseTo(colourDifference(first, second), 9);
  });
});
