import { describe, expect, it } from 'vitest';
import { dotShare, toneReflectance } from './overprint.ts';
import { pressCurve } from './press.ts';

describe('the curve of a press', () => {
  it('asks for the tone that prints as the wished one', () => {
    const curve = pressCurve({
      table: [
        [30, 50],
        [70, 85],
      ],
    });
    // A tint of 30 % that prints as 50 %, a dot gain of 20 %: the usual example.
    expect(curve(0.5)).toBeCloseTo(0.3);
    expect(curve(0.85)).toBeCloseTo(0.7);
    expect(curve(0.25)).toBeCloseTo(0.15);
    expect([curve(0), curve(1)]).toEqual([0, 1]);
  });
  it('takes the n of Yule and Nielsen instead, and comes back to the light that was wished', () => {
    const asked = pressCurve({ n: 1.7 })(0.5);
    expect(asked).toBeLessThan(0.5);
    expect(dotShare(toneReflectance(asked, 0.06, 1, 1.7), 0.06, 1)).toBeCloseTo(0.5);
  });
  it('leaves all as it is where nothing is known', () => {
    expect(pressCurve()(0.37)).toBe(0.37);
  });
  it('says what is wrong with a table that falls, or an n that is none', () => {
    expect(() =>
      pressCurve({
        table: [
          [30, 50],
          [40, 45],
        ],
      }),
    ).toThrow(/rise/);
    expect(() => pressCurve({ n: 0 })).toThrow(/n from 1/);
  });
});
