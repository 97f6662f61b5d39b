import { randomStream } from 'tenter';
import { describe, expect, it } from 'vitest';
import { bandOf, bareModel, painted } from '../testing/wood-grain.ts';
import { type RingTable, ringTable } from './rings.ts';

/** Rings of exactly `width` mm whose tone climbs from 0 to 1: the tone falls where a ring ends. */
function plainRings(width: number, to: number): RingTable {
  const habit = {
    profile: (t: number) => t,
    latewood: 0.5,
    latewoodSpread: 0,
    ringSpread: 0,
    drift: 0,
    spells: 0,
  };
  return ringTable(habit, 200, width, 0, to, { ...randomStream('rings', 'plain'), next: () => 1 });
}

/** Where a row's tone falls from late to early wood, mm from its middle; only to the right of it. */
function crossings(model: ReturnType<typeof bareModel>, row: number, width: number, mm: number): number[] {
  const count = Math.round(width / mm);
  const { tint } = painted(model, bandOf(0, row, count, 1, mm));
  const found: number[] = [];
  for (let k = count / 2 + 1; k < count; k++) {
    const [before, after] = [tint[(k - 1) * 4], tint[k * 4]];
    // Pixel k - 1 has its middle at k - 1/2; the tone passes one half only where a ring ends.
    const share = (before - 0.5) / (before - after);
    if (before > 0.5 && after <= 0.5) found.push((k - 0.5 + share) * mm - width / 2);
  }
  return found;
}

describe('the picture of a sawn log', () => {
  // Rings are cylinders of radius k * w; a face at distance d from the pith cuts them at
  // sqrt(k^2 w^2 - d^2) (Pythagoras).
  it.each([
    [50, 2, [14.283, 20.396, 25.219, 29.394, 33.166, 36.661]],
    [100, 2, [20.1, 28.566, 35.157, 40.792, 45.826, 50.438]],
  ])('at d = %f mm, w = %f mm crosses the rings where the cylinders do', (d, w, expected) => {
    const model = bareModel(120, 20, (u) => Math.hypot(u - 60, d), plainRings(w, 160));
    const found = crossings(model, 100, 120, 0.04);
    const first = Math.floor(d / w) + 1;
    expected.forEach((x, k) => {
      expect(Math.hypot(x, d) / w).toBeCloseTo(first + k, 3);
      // Told by the radius: near the pith's foot a hair of radius is far along the face.
      expect(Math.abs(Math.hypot(found[k], d) - Math.hypot(x, d))).toBeLessThan(0.03);
    });
  });

  it('means over a pixel, however large, what small pixels show inside it', () => {
    const model = bareModel(120, 24, (u, v) => Math.hypot(u - 60, 30) + 0.05 * v, plainRings(2, 100));
    const [far, near] = [bandOf(0, 0, 100, 20, 1.2), bandOf(0, 0, 2000, 400, 0.06)];
    const [coarse, fine] = [painted(model, far).tint, painted(model, near).tint];
    let total = 0;
    for (let y = 0; y < 20; y++) {
      for (let x = 0; x < 100; x++) {
        let sum = 0;
        for (let n = 0; n < 400; n++) {
          sum += fine[((y * 20 + Math.floor(n / 20)) * 2000 + x * 20 + (n % 20)) * 4];
        }
        total += Math.abs(sum / 400 - coarse[(y * 100 + x) * 4]);
      }
    }
    expect(total / 2000).toBeLessThan(0.02);
  });

  // The rings meet the face at atan(x / d): 45 degrees at x = d, the trade's border between plain- and
  // quarter-sawn (US Forest Service). On the face they stand w * sqrt(x^2 + d^2) / x apart.
  it('passes from plain- to quarter-sawn at x = d, where rings stand sqrt(2) widths apart', () => {
    const model = bareModel(240, 20, (u) => Math.hypot(u - 120, 50), plainRings(2, 200));
    const found = crossings(model, 60, 240, 0.1);
    const spacingAt = (x: number) => {
      const near = found.filter((place) => Math.abs(place - x) < 13);
      return (near[near.length - 1] - near[0]) / (near.length - 1);
    };
    expect(spacingAt(50)).toBeCloseTo(2 * Math.SQRT2, 1);
    expect(spacingAt(100)).toBeCloseTo(2.23607, 1);
  });

  // A tapered stem r = R - t z, faced at distance d along its pith: the hyperbola
  // x^2 + d^2 = (R - t z)^2, a cathedral with its apex at z = (R - d) / t.
  it('draws the ring of a tapered stem as a hyperbola: R = 60, t = 0.01, d = 50', () => {
    const model = bareModel(100, 1100, (u, v) => Math.hypot(u - 50, 50) + 0.01 * v, plainRings(60, 140));
    const mm = 0.25;
    const halfWidth = (z: number) => crossings(model, Math.round(z / mm), 100, mm)[0];
    expect(Math.abs(halfWidth(0) - 33.166)).toBeLessThan(0.4);
    expect(Math.abs(halfWidth(500) - 22.913)).toBeLessThan(0.4);
    expect(halfWidth(960)).toBeGreaterThan(0);
    expect(halfWidth(1010)).toBeUndefined();
  });

  // Where the face all but follows the growth surface, a fibre that lags it by j mm of radius ends
  // j / slope mm along: the torn edge of a cathedral's tip.
  it('tears a ring edge that lies across the fibres by jitter / slope', () => {
    const slope = 0.05;
    const bare = bareModel(120, 100, (_, v) => 10 + slope * v, plainRings(2, 40));
    const model = { ...bare, look: { ...bare.look, jitter: 0.1 } };
    const { tint } = painted(model, bandOf(0, 0, 480, 400, 0.25));
    const ends: number[] = [];
    for (let x = 0; x < 480; x++) {
      for (let y = 60; y < 260; y++) {
        const isEnd = tint[((y - 1) * 480 + x) * 4] > 0.5 && tint[(y * 480 + x) * 4] <= 0.5;
        if (isEnd) ends.push(y * 0.25);
      }
    }
    const mean = ends.reduce((sum, end) => sum + end, 0) / ends.length;
    const deviation = Math.sqrt(ends.reduce((sum, end) => sum + (end - mean) ** 2, 0) / ends.length);
    expect(Math.abs(mean - 2 / slope)).toBeLessThan(1.5);
    expect(deviation * slope).toBeGreaterThan(0.06);
    expect(deviation * slope).toBeLessThan(0.14);
  });
});
