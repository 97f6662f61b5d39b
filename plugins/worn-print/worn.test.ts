import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { boxOf, cellIndex, emptyField, parseLayout, randomStream } from 'tenter';
import { resolveValues } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { anyValues, expectAnyCut, expectCloses, expectSeamless } from '../testing/habits.ts';
import { type Made, paintTried, tryEffect } from '../testing/make.ts';
import { boxFiltered, correlation, meanOf } from '../testing/measure.ts';
import { runCrease } from './crease.ts';
import { foldsOf } from './crumple.ts';
import worn from './index.ts';
import { PARAMETERS } from './parameters.ts';
import { stampCreases, wornBeside } from './stamp.ts';
import { KNUCKLE_DEVIATION, KNUCKLE_MEAN, weaveRow } from './threads.ts';

const loadOf = (tried: Made, x: number, y: number, width: number, height: number, scale = 1) =>
  paintTried(tried, x, y, width, height, scale).load as Float32Array;

/** Nothing but what is set. */
const UNWORN = { rubbed: 0, washed: 0, uneven: 0, folds: 0, creases: 0, cracks: 0, scratches: 0 };

describe('a worn print closes', () => {
  it.each<[string, [number, number], Record<string, unknown>]>([
    ['straight', [301, 203], {}],
    ['straight', [97, 61], { rubbed: 90, cracks: 80 }],
    ['drop:1/2', [300, 202], { folds: 90, foldsApart: 30 }],
    ['drop:1/3', [252, 201], { surface: 'paper' }],
    ['drop:2/5', [240, 205], { scratches: 40 }],
    ['brick:1/2', [250, 203], { surface: 'skin', cracks: 90 }],
    ['brick:1/3', [252, 203], { creases: 100, washed: 100, uneven: 1 }],
  ])('over %s %j %j', (layout, pixels, parameters) => {
    const tried = tryEffect(worn, { ...parameters, patches: 15 }, layout, pixels);
    expectCloses(tried);
    expectSeamless(tried);
  });
  it('however it is cut into bands, at any density', () => {
    for (const dpi of [300, 72]) expectAnyCut(tryEffect(worn, {}, 'drop:1/2', [120, 90], dpi));
  });
});

describe('a worn print', () => {
  it('leaves a print alone that nothing was done to', () => {
    for (const surface of PARAMETERS.surface.options) {
      const tried = tryEffect(worn, { ...UNWORN, surface }, 'straight', [200, 200]);
      expect(Math.min(...loadOf(tried, 0, 0, 200, 200))).toBeGreaterThan(0.97);
    }
  });

  it('only takes paint, whatever the values', () => {
    fc.assert(
      fc.property(anyValues(PARAMETERS), (values) => {
        const load = loadOf(tryEffect(worn, values, 'drop:1/2', [90, 60], 150), -9, -9, 60, 50);
        expect(load.every((value) => value >= 0 && value <= 1)).toBe(true);
      }),
      { numRuns: 14, seed: 7 },
    );
  });

  it.each<[string, number[], Record<string, unknown>]>([
    ['rubbed', [0, 40, 100], {}],
    ['washed', [0, 40, 100], {}],
    ['folds', [0, 40, 100], { foldsApart: 30 }],
    ['creases', [0, 40, 100], { washed: 30 }],
    ['cracks', [0, 40, 100], {}],
    ['scratches', [0, 8, 40], {}],
  ])('has less paint the more it is set to: %s', (name, values, besides) => {
    const means = values.map((value) => {
      const tried = tryEffect(worn, { ...UNWORN, ...besides, [name]: value }, 'straight', [300, 300], 75);
      return meanOf(loadOf(tried, 0, 0, 300, 300));
    });
    expect(means).toEqual([...means].sort((a, b) => b - a));
    expect(means[0] - means[2]).toBeGreaterThan(0.001);
  });

  it('gathers in patches where asked, at the same rubbing', () => {
    const spread = (patchiness: number) => {
      const tried = tryEffect(
        worn,
        { ...UNWORN, rubbed: 70, patchiness, patches: 30 },
        'straight',
        [320, 320],
        75,
      );
      const places = boxFiltered(loadOf(tried, 0, 0, 320, 320), 320, 20);
      return Math.max(...places) - Math.min(...places);
    };
    expect(spread(1)).toBeGreaterThan(2 * spread(0));
  });

  it('streaks the way it was rubbed', () => {
    const ratio = (direction: number) => {
      const values = { ...UNWORN, surface: 'paper', rubbed: 90, direction };
      const load = loadOf(tryEffect(worn, values, 'straight', [300, 300], 75), 0, 0, 300, 300);
      const unlike = (step: number) =>
        meanOf(load.subarray(0, 89_000).map((value, k) => (value - load[k + step]) ** 2));
      return unlike(300 * 3) / unlike(3);
    };
    expect(ratio(0)).toBeGreaterThan(1.4);
    expect(ratio(90)).toBeLessThan(1 / 1.4);
  });

  it.each<[string, Record<string, unknown>]>([
    ['cloth', {}],
    ['paper, much folded', { surface: 'paper', folds: 100, foldsApart: 40 }],
    ['a cracked skin', { surface: 'skin', cracks: 70 }],
  ])('%s: 75 dpi is what 300 dpi looks like from four times as far', (_, parameters) => {
    const tried = tryEffect(worn, { rubbed: 70, patches: 30, ...parameters }, 'straight', [800, 600]);
    const wanted = boxFiltered(loadOf(tried, 0, 0, 800, 600), 800, 4);
    const far = loadOf(tried, 0, 0, 200, 150, 4);
    expect(correlation(far, wanted)).toBeGreaterThan(0.9);
    expect(Math.abs(meanOf(far) - meanOf(wanted))).toBeLessThan(0.02);
  });
});

describe('the weave', () => {
  it('has the mean and deviation that are stated', () => {
    const box = boxOf({ layout: parseLayout('straight'), width: 2, height: 2 });
    const level = emptyField(box, 1);
    const threads = {
      grid: level,
      ends: new Float32Array(2),
      picks: new Float32Array(2),
      endsWander: level,
      picksWander: level,
    };
    const still = new Float32Array(200);
    const rows = { endsWander: still, picksWander: still };
    const heights: number[] = [];
    for (let j = 0; j < 200; j++) {
      const row = new Float32Array(200);
      weaveRow(threads, rows, 0.005, 0.01, (j + 0.5) * 0.01, 200, 1, row);
      heights.push(...row);
    }
    expect(KNUCKLE_MEAN).toBeGreaterThan(0.5);
    expect(KNUCKLE_DEVIATION).toBeLessThan(0.5);
    expect(meanOf(heights)).toBeCloseTo(0, 2);
    expect(meanOf(heights.map((height) => height * height))).toBeCloseTo(1, 2);
  });
});

describe('creases', () => {
  const habit = { step: 1, turn: 0, kinks: 0, kink: 0, branches: 0 };
  const start = { x: 0, y: 0, heading: 0, length: 40, depth: 1, half: 1 };

  it('end where they meet another', () => {
    const [right] = runCrease(start, habit, (x) => x > 9.5, randomStream('a', 'b'));
    expect(Math.max(...right.xs)).toBeCloseTo(10);
    expect(right.depths.at(-1)).toBeGreaterThan(0.8);
  });

  it('grow faint where they meet none', () => {
    const [right] = runCrease(start, habit, () => false, randomStream('a', 'b'));
    expect(right.depths.at(-1)).toBe(0);
  });

  it('branch where they kink, and the branches are weaker', () => {
    const all = runCrease(
      start,
      { ...habit, kinks: 0.3, kink: 0.3, branches: 1 },
      () => false,
      randomStream('a', 'b'),
    );
    expect(all.length).toBeGreaterThan(4);
    for (const { depths } of all.slice(2)) expect(depths[0]).toBeLessThan(0.8);
  });

  it('are worn most on the ridge, and the same in every copy of the box', () => {
    expect(wornBeside(0)).toBeCloseTo(1);
    expect(wornBeside(1)).toBeLessThan(0.5);
    const box = boxOf({ layout: parseLayout('drop:1/2'), width: 30, height: 20 });
    const field = emptyField(box, 0.5);
    stampCreases(field, [{ xs: [28, 33], ys: [5, 5], depths: [1, 1], half: 1 }]);
    const at = (x: number, y: number) => field.values[cellIndex(field, Math.floor(x * 2), Math.floor(y * 2))];
    expect(at(31, 5)).toBeGreaterThan(0.6);
    expect(at(1, 15)).toBe(at(31, 5));
    expect(at(1, 5)).toBe(0);
  });

  it('are never two alike: folds differ in length and in heading', () => {
    const box = boxOf({ layout: parseLayout('straight'), width: 500, height: 500 });
    const folds = foldsOf(box, 100, randomStream('a', 'folds'));
    expect(new Set(folds.map(({ xs }) => xs.length)).size).toBeGreaterThan(folds.length / 4);
  });
});

describe('presets', () => {
  const folder = new URL('../../presets/worn-print/', import.meta.url);
  const files = readdirSync(folder);
  const read = (file: string) => JSON.parse(readFileSync(new URL(file, folder), 'utf8'));
  it('are six at least, on every surface', () => {
    expect(files.length).toBeGreaterThanOrEqual(6);
    const surfaces = files.map(
      (file) => resolveValues('worn-print', PARAMETERS, read(file).parameters).surface,
    );
    expect(new Set(surfaces)).toEqual(new Set(PARAMETERS.surface.options));
  });
  it.each(files)('%s leaves the artwork to be seen', (file) => {
    const tried = tryEffect(worn, read(file).parameters, 'drop:1/2', [240, 240], 40);
    const mean = meanOf(loadOf(tried, 0, 0, 240, 240));
    expect(mean).toBeGreaterThan(0.5);
    expect(mean).toBeLessThan(0.97);
  });
});
