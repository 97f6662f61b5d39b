import { describe, expect, it } from 'vitest';
import { dotShare, overprint, toneReflectance } from './overprint.ts';

describe('one ink over another', () => {
  it('hides what is under it where it covers', () => {
    expect(overprint([0.1, 0.2, 0.3], true, [0.9, 0.8, 0.7], [1, 1, 1])).toEqual([0.1, 0.2, 0.3]);
  });
  it('lets light pass both where it does not, relative to the ground', () => {
    const [red, green, blue] = overprint([0.4, 0.2, 0.1], false, [0.2, 0.4, 0.1], [0.8, 0.8, 0.5]);
    expect([red, green, blue]).toEqual([expect.closeTo(0.1), expect.closeTo(0.1), expect.closeTo(0.02)]);
    expect(overprint([0.4, 0.2, 0.1], false, [0.8, 0.8, 0.5], [0.8, 0.8, 0.5])).toEqual([
      expect.closeTo(0.4),
      expect.closeTo(0.2),
      expect.closeTo(0.1),
    ]);
    expect(overprint([0, 0.2, 0.1], false, [0, 0.4, 0.1], [0, 0.8, 0.5])[0]).toBe(0);
  });
});

describe('Murray-Davies 1936 and Yule-Nielsen 1951', () => {
  it('meet a worked example: a 50 % dot of density 3.0 has density 0.3006, of 1.33 has 0.2812', () => {
    // The alt-photo-process list, September 2004, message 0218 (lists.ding.net), worked out by the same rule.
    for (const [solid, tone] of [
      [3, 0.3006],
      [1.33, 0.2812],
    ])
      expect(-Math.log10(toneReflectance(0.5, 10 ** -solid, 1))).toBeCloseTo(tone, 4);
  });
  it('come to (1 - 10^-Dt)/(1 - 10^-Ds), and with n to (1 - 10^-Dt/n)/(1 - 10^-Ds/n), as densitometers do', () => {
    const [tint, solid] = [0.5, 1.4];
    expect(dotShare(10 ** -tint, 10 ** -solid, 1)).toBeCloseTo((1 - 10 ** -tint) / (1 - 10 ** -solid), 12);
    expect(dotShare(10 ** -tint, 10 ** -solid, 1, 1.7)).toBeCloseTo(
      (1 - 10 ** (-tint / 1.7)) / (1 - 10 ** (-solid / 1.7)),
      12,
    );
    // Light that is caught makes a dot look larger than it is: the share found with n is the smaller.
    expect(dotShare(10 ** -tint, 10 ** -solid, 1, 1.7)).toBeLessThan(dotShare(10 ** -tint, 10 ** -solid, 1));
  });
  it('are each the inverse of the other', () => {
    for (const n of [1, 1.5, 2])
      for (const share of [0, 0.02, 0.5, 0.97, 1])
        expect(dotShare(toneReflectance(share, 0.06, 0.83, n), 0.06, 0.83, n)).toBeCloseTo(share, 10);
  });
});
