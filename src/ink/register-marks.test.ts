import { describe, expect, it } from 'vitest';
import { isMark, type MarkedSize, markedRows } from './register-marks.ts';

const SIZE: MarkedSize = { width: 61, height: 40, margin: 20 };
const everywhere = Array.from({ length: 80 * 101 }, (_, k) => [(k % 101) - 20, Math.floor(k / 101) - 20]);
const marksOf = (order: number) => everywhere.filter(([x, y]) => isMark(SIZE, x, y, order));

describe('marks round a repeat', () => {
  it('stand outside it, on all four sides', () => {
    const marks = marksOf(3);
    expect(marks.some(([x, y]) => x >= 0 && x < 61 && y >= 0 && y < 40)).toBe(false);
    for (const isThere of [
      ([x]: number[]) => x < 0,
      ([x]: number[]) => x >= 61,
      ([, y]: number[]) => y < 0,
      ([, y]: number[]) => y >= 40,
    ])
      expect(marks.some(isThere)).toBe(true);
  });

  it('are the same on every plate but for the bars that count it', () => {
    const [first, third] = [marksOf(1), marksOf(3)];
    const bar = (marks: number[][]) => marks.length;
    const differing = third.filter((mark) => !first.some(([x, y]) => x === mark[0] && y === mark[1]));
    expect(bar(third)).toBeGreaterThan(bar(first));
    // Two bars more, 1 px wide and 7 px high each, in the margin above.
    expect(differing).toHaveLength(14);
    expect(differing.every(([, y]) => y < 0)).toBe(true);
  });

  it('leave the tile within as it is, in 8 bits and in 1', () => {
    const areas = Uint8Array.from({ length: 61 }, (_, x) => (x % 3 === 0 ? 255 : 0));
    const marked = markedRows(SIZE, 1, 8, 5, 1, areas);
    expect(marked).toHaveLength(101);
    expect([...marked.subarray(20, 81)]).toEqual([...areas]);
    const bits = new Uint8Array(8);
    areas.forEach((area, x) => {
      if (area > 0) bits[x >> 3] |= 0x80 >> (x & 7);
    });
    const packed = markedRows(SIZE, 1, 1, 5, 1, bits);
    const unpacked = Array.from({ length: 101 }, (_, x) => ((packed[x >> 3] >> (7 - (x & 7))) & 1 ? 255 : 0));
    expect(unpacked).toEqual([...marked]);
  });
});
