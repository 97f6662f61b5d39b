import { boxOf, parseLayout, parseSize } from 'tenter';
import { describe, expect, it } from 'vitest';
import { makeLift, PLAIN_DROP, paintLift } from '../testing/alcohol-lift.ts';
import { meanOf } from '../testing/measure.ts';
import type { Drop } from './drop.ts';
import { fingered, rimWithin } from './finger.ts';
import { joinTouching } from './join.ts';
import { profileBank, REACH, RINGS } from './profile.ts';
import { depthTables, ENTRIES_PER_RADIUS, reachOfPatch, slopeAt, tableStart } from './tables.ts';

const box = boxOf({ layout: parseLayout('drop:1/2'), ...parseSize('40x30mm') });
const DROP: Drop = { ...PLAIN_DROP, softness: 0.2, stain: 0.3, grain: 0.1 };

describe('drops that run into one another', () => {
  const stainsOf = (...others: Partial<Drop>[]) =>
    joinTouching(
      box,
      [DROP, ...others].map((other, k) => ({ ...DROP, stain: 0.3 + 0.1 * k, ...other })),
    )
      .sort((a, b) => b.radius - a.radius)
      .map(({ stain }) => stain);
  it('share one stain, through others and across the edge of the box', () => {
    expect(stainsOf({ x: 26, radius: 3 }, { x: 30, radius: 2 })).toEqual([0.3, 0.3, 0.3]);
    // Over the right edge and half the height down is the same sheet: (-0.5, 16) is (39.5, 1).
    expect(stainsOf({ x: 39, y: 2, radius: 3 }, { x: 1, y: 18, radius: 2 })).toEqual([0.3, 0.4, 0.4]);
  });
  it('keep their own where they only touch, are specks, or fell in later', () => {
    expect(stainsOf({ x: 26.9, radius: 3 })).toEqual([0.3, 0.4]);
    expect(stainsOf({ x: 22, radius: 0.5 })).toEqual([0.3, 0.4]);
    expect(stainsOf({ x: 22, radius: 2, isApart: true })).toEqual([0.3, 0.4]);
  });
  it('open broad ones first', () => {
    const drops = [0.3, 4, 1.5].map((radius, k) => ({ ...DROP, radius, time: 0.1 * k }));
    expect(joinTouching(box, drops).map(({ radius }) => radius)).toEqual([4, 1.5, 0.3]);
  });
});

describe('an opening drawn in two parts', () => {
  const bank = profileBank(0.5);
  const tables = depthTables(bank);
  it('is its profile again: within the patch times the slope in the field', () => {
    bank.forEach(({ weak, strong }, kind) => {
      const start = tableStart(tables, kind, 0, 4);
      for (let entry = 4; entry < reachOfPatch(4) * ENTRIES_PER_RADIUS - 4; entry++)
        [weak, strong].forEach((depth, side) => {
          const part = entry / ENTRIES_PER_RADIUS;
          const whole = tables.values[start + 2 * entry + side] * slopeAt(depth, part);
          const around = (depth[entry - 1] + 2 * depth[entry] + depth[entry + 1]) / 4;
          expect(Math.abs(whole - around)).toBeLessThan(0.02 + 0.05 * around);
        });
    });
  });
  it('ends in the patch where the field has all, and on the sheet at the reach', () => {
    bank.forEach(({ weak }, kind) => {
      const end = Math.floor(reachOfPatch(4) * ENTRIES_PER_RADIUS);
      expect(tables.values[tableStart(tables, kind, 0, 4) + 2 * end]).toBe(1);
      expect(Math.abs(slopeAt(weak, REACH) - weak[RINGS])).toBeLessThan(1e-6);
    });
  });
});

describe('fingers', () => {
  it.each([-0.4, -0.1, 0.1, 0.4])('reaching %f leave the order along a ray as it is', (reach) => {
    let before = -1;
    for (let part = 0; part < 2; part += 0.005) {
      const counts = fingered(part, reach);
      expect(counts).toBeGreaterThan(before);
      before = counts;
      if (part < 0.5 || part > 1.25) expect(counts).toBe(part);
    }
  });
  it('draw the edge out where they reach, and hold it back between', () => {
    expect(fingered(1, 0.1)).toBeLessThan(0.95);
    expect(fingered(1, -0.1)).toBeGreaterThan(1.05);
  });
});

describe('rims', () => {
  it('differ by direction at the edge and beyond, and not in the middle, where directions meet', () => {
    for (const part of [1, 1.4]) expect([0, 0.7].map((rim) => rimWithin(rim, part))).toEqual([0, 0.7]);
    expect(rimWithin(0, 0.5)).toBe(rimWithin(0.7, 0.5));
  });
  it('leave no rays that meet in the middle of an opening', () => {
    const made = makeLift(
      { drops: 1.2, size: 30, variety: 0, spatter: 0, seconds: 0, wash: 0, tooth: 0, gathering: 0 },
      'straight',
      '90x90mm',
      { dpi: 100, seed: '2' },
    );
    const { radius } = made.model.rims;
    const k = radius.indexOf(Math.max(...radius));
    const { left, top, cell, columns, rows, first, parts } = made.model.patches;
    // The middle is where the part is least; around it, on a circle, the load varies little.
    const own = parts.subarray(first[k], first[k] + columns[k] * rows[k]);
    const least = own.indexOf(Math.min(...own));
    const perMm = 1 / made.grid.mmPerPixelX;
    const x = Math.round((left[k] + (least % columns[k]) * cell[k]) * perMm);
    const y = Math.round((top[k] + Math.floor(least / columns[k]) * cell[k]) * perMm);
    const around = Math.round(0.3 * radius[k] * perMm);
    const { load } = paintLift(made, x - around, y - around, 2 * around + 1, 2 * around + 1, ['load']);
    const ring = Array.from({ length: 48 }, (_, turn) => {
      const [dx, dy] = [Math.cos((turn * Math.PI) / 24), Math.sin((turn * Math.PI) / 24)];
      return load[Math.round(around * (1 + dx)) + Math.round(around * (1 + dy)) * (2 * around + 1)];
    });
    const mean = meanOf(ring);
    expect(mean).toBeLessThan(0.7);
    const spread = meanOf(ring.map((value) => Math.abs(value / mean - 1)));

    expect(spread).toBeLessThan(0.034);
  });
});
