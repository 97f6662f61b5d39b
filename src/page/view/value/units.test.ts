import { describe, expect, it } from 'vitest';
import { readFigure, roundedFor, stepOf, stepped, within } from './units.ts';

const share = { unit: 'ratio', min: 0, max: 1 } as const;
const sett = { unit: 'per cm', min: 4, max: 40 } as const;
const count = { unit: 'count', min: 1, max: 9, whole: true } as const;
const turn = { unit: 'deg', min: 0, max: 360 } as const;

describe('a figure with its unit', () => {
  it('reads what a person writes, with its unit or without', () => {
    expect(readFigure(share, ' 40%')).toBe(0.4);
    expect(readFigure(sett, '7,5 per cm')).toBe(7.5);
    expect(readFigure(turn, '225° (upper left)')).toBe(225);
  });
  it('reads a length in centimetres and inches as well', () => {
    const length = { unit: 'mm', min: 1, max: 1000 } as const;
    expect(readFigure(length, '6,4 cm')).toBe(64);
    expect(readFigure(length, '2 in')).toBe(50.8);
    expect(readFigure(length, '25mm')).toBe(25);
    expect(readFigure(length, '25')).toBe(25);
    expect(readFigure(length, '3 ft')).toBe(undefined);
  });
  it('keeps to the range, and to whole numbers', () => {
    expect(readFigure(sett, '99')).toBe(40);
    expect(readFigure(count, '3.6')).toBe(4);
    expect(within({ ...sett, min: 0.5, max: 3.5, whole: true }, 0)).toBe(1);
  });
  it('refuses another unit and what is no number', () => {
    for (const text of ['', 'much', '12 mm', '--2']) expect(readFigure(sett, text), text).toBe(undefined);
  });
  it('steps by round figures, a hundredth of the range or so', () => {
    expect(stepOf(share)).toBe(0.01);
    expect(stepOf(sett)).toBe(0.5);
    expect(stepOf(count)).toBe(1);
    expect(stepped(share, 0.344, 1)).toBe(0.35);
    expect(stepped(share, 0.3, -10)).toBe(0.2);
    expect(stepped(share, 0.995, 10)).toBe(1);
  });
  it('is shown no finer than a place beyond its steps', () => {
    expect(roundedFor({ unit: 'mm', min: 1, max: 10_000 }, 160.0128303)).toBe(160);
    expect(roundedFor({ unit: 'mm', min: 1, max: 10_000 }, 264.37)).toBe(264.4);
    expect(roundedFor(share, 0.34567)).toBe(0.346);
  });
});
