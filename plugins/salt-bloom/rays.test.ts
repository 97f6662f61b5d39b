import { describe, expect, it } from 'vitest';
import { rayAt } from './rays.ts';

const AROUND = Array.from({ length: 2000 }, (_, k) => (k * 2 * Math.PI) / 2000);

describe('rays', () => {
  it('close about the grain, whatever the turn the angle is counted in', () => {
    for (const angle of AROUND) {
      expect(rayAt(7, angle + 2 * Math.PI)).toBeCloseTo(rayAt(7, angle), 9);
      expect(rayAt(7, angle - 4 * Math.PI)).toBeCloseTo(rayAt(7, angle), 9);
    }
    expect(rayAt(7, Math.PI - 1e-9)).toBeCloseTo(rayAt(7, -Math.PI), 6);
  });

  it('reach from 0 to 1 and change without a step', () => {
    for (const grain of [0, 1, 2, 99, 12_345]) {
      const lengths = AROUND.map((angle) => rayAt(grain, angle));
      expect(Math.min(...lengths)).toBeGreaterThanOrEqual(0);
      expect(Math.max(...lengths)).toBeLessThanOrEqual(1);
      const steps = lengths.map((length, k) => Math.abs(length - lengths[(k + 1) % lengths.length]));
      expect(Math.max(...steps)).toBeLessThan(0.08);
    }
  });

  it('are between twelve and some twenty, of many lengths, and others round another grain', () => {
    const crests = (grain: number) => {
      const lengths = AROUND.map((angle) => rayAt(grain, angle));
      return lengths.filter((length, k) => length > lengths.at(k - 1)! && length >= lengths[(k + 1) % 2000]);
    };
    for (let grain = 0; grain < 20; grain++) {
      const found = crests(grain);
      expect(found.length).toBeGreaterThan(5);
      expect(found.length).toBeLessThan(24);
      expect(Math.max(...found) / Math.min(...found)).toBeGreaterThan(1.3);
    }
    expect(crests(1)).not.toEqual(crests(2));
  });
});
