import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { boxOf, cellWalls, indexPoints, outlineArea, parseLayout, shortestWay } from 'tenter';
import { openSetting } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { anyValues, expectAnyCut, expectCloses, expectSeamless, numbersOf } from '../testing/habits.ts';
import { paintTried, tryEffect } from '../testing/make.ts';
import { boxFiltered, correlation, meanOf } from '../testing/measure.ts';
import { breakChips, type Chip, sidesOf } from './chips.ts';
import { strewGrit } from './grit.ts';
import terrazzo from './index.ts';
import { keptArea } from './paint.ts';
import { PARAMETERS, type TerrazzoValues } from './parameters.ts';

function broken(parameters: Record<string, unknown>, layout = 'drop:1/2') {
  const box = boxOf({ layout: parseLayout(layout), width: 90, height: 70 });
  const { setting } = openSetting(terrazzo, { box, seed: 'a', parameters });
  const values = setting.parameters as TerrazzoValues;
  const { walls, chips } = breakChips(box, values, setting.random);
  const whole = chips.filter((chip) => chip !== undefined);
  return { box, whole, grit: strewGrit(box, walls, chips, values, setting.random('grit')) };
}

/** How far the nearest corner of one stone stands outside another, mm; below 0 where they overlap. */
function apart(box: ReturnType<typeof broken>['box'], one: Chip, other: Chip): number {
  const [dx, dy] = shortestWay(box.lattice, one.x - other.x, one.y - other.y);
  const separated = (inner: Chip, outer: Chip, x: number, y: number) =>
    Math.max(
      ...sidesOf(inner.corners).map((side) =>
        Math.min(...outer.corners.map((c) => (c.x + x) * side.x + (c.y + y) * side.y - side.half)),
      ),
    );
  return Math.max(separated(other, one, dx, dy), separated(one, other, -dx, -dy));
}

describe('terrazzo closes', () => {
  it.each<[string, [number, number], Record<string, unknown>]>([
    ['straight', [301, 203], {}],
    ['drop:1/2', [300, 202], { wear: 0.6, mix: 0.4 }],
    ['drop:2/5', [240, 205], { bed: 'artwork' }],
    ['brick:1/3', [252, 203], { chips: 6, mix: 1 }],
    ['drop:1/2', [59, 82], { chips: 40 }],
  ])('over %s %j %j', (layout, pixels, parameters) => {
    const tried = tryEffect(terrazzo, parameters, layout, pixels, 150);
    expectCloses(tried);
    expectSeamless(tried);
  });
  it('however it is cut into bands, at any density', () => {
    for (const dpi of [300, 72]) expectAnyCut(tryEffect(terrazzo, {}, 'drop:1/2', [120, 90], dpi));
  });
});

describe('stones', () => {
  it.each(['straight', 'drop:2/5', 'brick:1/2'])('never overlap over %s, splinters neither', (layout) => {
    const { box, whole, grit } = broken({ chips: 12, mix: 1, cover: 80, grit: 1 }, layout);
    expect(whole.length).toBeGreaterThan(60);
    expect(grit.length).toBeGreaterThan(60);
    const stones = [...whole, ...grit];
    let nearest = Number.POSITIVE_INFINITY;
    for (const [k, one] of stones.entries()) {
      for (const other of stones.slice(0, k)) {
        const [dx, dy] = shortestWay(box.lattice, one.x - other.x, one.y - other.y);
        if (Math.hypot(dx, dy) < 24) nearest = Math.min(nearest, apart(box, one, other));
      }
    }
    expect(nearest).toBeGreaterThan(0.02);
  });

  it('cover as much of the ground as was asked for', () => {
    for (const cover of [10, 40]) {
      const { box, whole } = broken({ cover });
      const sum = whole.reduce((total, { corners }) => total + outlineArea(corners).area, 0);
      expect((100 * sum) / (box.width * box.height)).toBeCloseTo(cover, 1);
    }
  });

  it('are of many sizes where they are mixed, and of one where they are sieved', () => {
    const spread = (mix: number) => {
      const sizes = broken({ mix, chips: 12 }).whole.map(({ area }) => Math.log(area));
      const mean = meanOf(sizes);
      return Math.sqrt(meanOf(sizes.map((size) => (size - mean) ** 2)));
    };
    expect(spread(1)).toBeGreaterThan(1.6 * spread(0));
  });

  it('lie in cells whose walls keep clear of the circles of larger ones', () => {
    const box = boxOf({ layout: parseLayout('straight'), width: 40, height: 40 });
    const points = { x: Float64Array.of(10, 20), y: Float64Array.of(20, 20) };
    const walls = cellWalls(indexPoints(box, points), [6, 2]);
    const wall = [...walls.behind.subarray(walls.starts[0], walls.starts[1])].indexOf(1);
    // (100 + 36 - 4) / 20: the point of equal tangents.
    expect(walls.half[walls.starts[0] + wall]).toBeCloseTo(6.6, 9);
  });
});

describe('terrazzo', () => {
  it('gives fair values for any parameters', () => {
    fc.assert(
      fc.property(anyValues(PARAMETERS), (values) => {
        const tried = tryEffect(terrazzo, values, 'drop:1/2', [90, 60], 100);
        for (const plane of numbersOf(paintTried(tried, -9, -9, 60, 50))) {
          expect(plane.every((value) => value >= 0 && value <= 1)).toBe(true);
        }
      }),
      { numRuns: 25, seed: 7 },
    );
  });

  it('leaves the artwork alone between chips that are let into it', () => {
    const tried = tryEffect(terrazzo, { bed: 'artwork', cover: 20, grit: 0 }, 'straight', [300, 300], 100);
    const { tint } = paintTried(tried, 0, 0, 300, 300);
    const alpha = Array.from({ length: 90_000 }, (_, k) => tint?.[4 * k + 3] ?? -1);
    expect(alpha.filter((value) => value === 0).length / 90_000).toBeGreaterThan(0.6);
    expect(meanOf(alpha)).toBeCloseTo(0.2, 1);
  });

  it.each([0.1, 0.3, 0.6, 2])('keeps the area of a stone of %d mm under edges of any softness', (radius) => {
    for (const soft of [0.05, 0.2, 0.7]) {
      const { inset, weight } = keptArea(radius, soft);
      let area = 0;
      const step = 0.002;
      for (let r = step / 2; r < radius + soft; r += step) {
        const edge = (radius - inset - r) / soft;
        area += 2 * Math.PI * r * step * weight * Math.min(1, Math.max(0, 0.5 + edge));
      }
      expect(area / (Math.PI * radius ** 2)).toBeCloseTo(1, 2);
    }
  });

  it('75 dpi is what 300 dpi looks like from four times as far', () => {
    const tried = tryEffect(terrazzo, { grit: 1 }, 'straight', [800, 600]);
    const first = (plane: Float32Array) => plane.filter((_, k) => k % 4 === 0);
    const near = boxFiltered(first(numbersOf(paintTried(tried, 0, 0, 800, 600))[0]), 800, 4);
    const far = first(numbersOf(paintTried(tried, 0, 0, 200, 150, 4))[0]);
    expect(correlation(far, near)).toBeGreaterThan(0.98);
    expect(Math.abs(meanOf(far) - meanOf(near))).toBeLessThan(0.01);
  });
});

describe('presets', () => {
  const folder = new URL('../../presets/terrazzo/', import.meta.url);
  const files = readdirSync(folder);
  it('are at least six, one let into the artwork', () => {
    expect(files.length).toBeGreaterThanOrEqual(6);
    const presets = files.map((file) => JSON.parse(readFileSync(new URL(file, folder), 'utf8')));
    expect(presets.filter(({ parameters }) => parameters.bed === 'artwork').length).toBe(1);
  });
});
