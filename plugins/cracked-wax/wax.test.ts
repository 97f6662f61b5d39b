import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { boxOf, parseLayout } from 'tenter';
import { openSetting, resolveValues } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { anyValues, expectAnyCut, expectCloses, expectSeamless, numbersOf } from '../testing/habits.ts';
import { paintTried, tryEffect } from '../testing/make.ts';
import { boxFiltered, correlation, meanOf } from '../testing/measure.ts';
import { bleedOf } from './bleed.ts';
import { CrackMap, nothingNear } from './crack-map.ts';
import wax from './index.ts';
import { growNetwork } from './network.ts';
import { PARAMETERS } from './parameters.ts';

const CLOSE = { spacing: 7, crumples: 15, width: 0.5, unevenness: 0.4, strength: 100 };

describe('cracked wax closes', () => {
  it.each<[string, [number, number], Record<string, unknown>]>([
    ['straight', [301, 203], {}],
    ['straight', [97, 61], { bath: 'bleach' }],
    ['drop:1/2', [300, 202], {}],
    ['drop:1/3', [251, 201], { bath: 'bleach' }],
    ['drop:2/5', [240, 205], { curve: 2 }],
    ['brick:1/2', [250, 203], {}],
    ['brick:1/3', [252, 203], { bath: 'bleach' }],
    ['drop:1/2', [59, 82], { spacing: 40 }],
  ])('over %s %j %j', (layout, pixels, parameters) => {
    const tried = tryEffect(wax, { ...CLOSE, ...parameters }, layout, pixels);
    expectCloses(tried);
    expectSeamless(tried);
  });
  it('however it is cut into bands, at any density', () => {
    for (const dpi of [300, 72]) expectAnyCut(tryEffect(wax, CLOSE, 'drop:1/2', [120, 90], dpi));
  });
  it('twice the same, and with another seed another', () => {
    const once = (seed: string) =>
      numbersOf(paintTried(tryEffect(wax, CLOSE, 'straight', [120, 90], 300, seed), 0, 0, 120, 90));
    expect(once('a')).toEqual(once('a'));
    const red = (seed: string) => once(seed)[0].filter((_, k) => k % 4 === 0);
    expect(correlation(red('a'), red('b'))).toBeLessThan(0.5);
  });
});

/** Where cracks of a network end on others: how far from a right angle, in degrees. */
function anglesOf(seed: string): number[] {
  const box = boxOf({ layout: parseLayout('drop:1/2'), width: 160, height: 140 });
  const { setting } = openSetting(wax, { box, seed, parameters: { curve: 0.5 } });
  const cracks = growNetwork(box, setting.parameters as never, setting.random, () => {});
  const map = new CrackMap(box, 4);
  const tangents: number[] = [];
  cracks.forEach(({ xs, ys }, crack) => {
    xs.forEach((x, k) => {
      map.add(x, ys[k], crack, 0);
      const [a, b] = [Math.max(0, k - 1), Math.min(xs.length - 1, k + 1)];
      tangents.push(Math.atan2(ys[b] - ys[a], xs[b] - xs[a]));
    });
  });
  const angles: number[] = [];
  cracks.forEach(({ rank, xs, ys, isJoinedAtEnd }, crack) => {
    const last = xs.length - 1;
    if (rank > 2 || rank < 1 || !isJoinedAtEnd || last < 8) return;
    const near = map.nearest(xs[last], ys[last], 0.5, nothingNear(), (other) => map.crack[other] >= crack);
    if (near.vertex < 0) return;
    const arriving = Math.atan2(ys[last] - ys[last - 3], xs[last] - xs[last - 3]);
    angles.push((Math.acos(Math.abs(Math.cos(arriving - tangents[near.vertex]))) * 180) / Math.PI);
  });
  return angles;
}

describe('cracks', () => {
  // Bohn, Pauchard and Couder (2005): a later crack meets an earlier one at about a right angle. Straight
  // lines thrown at random meet at 57 degrees on average (angles weighted by their sine: 180 / pi), the walls
  // of a Voronoi diagram at 120, so 60.
  it('meet earlier ones nearly at right angles', () => {
    const angles = anglesOf('a');
    expect(angles.length).toBeGreaterThan(100);
    expect(meanOf(angles)).toBeGreaterThan(70);
    expect(angles.filter((angle) => angle > 60).length / angles.length).toBeGreaterThan(0.75);
  });
  it('crowd where the cloth was crumpled', () => {
    const spread = (crumpling: number) => {
      const tried = tryEffect(
        wax,
        { crumpling, spacing: 8, bleeding: 0, blush: 0 },
        'straight',
        [300, 300],
        50,
      );
      const { tint } = paintTried(tried, 0, 0, 300, 300);
      const darkness = Float32Array.from({ length: 90_000 }, (_, k) => 1 - (tint?.[4 * k] ?? 1));
      const patches = boxFiltered(darkness, 300, 30);
      const mean = meanOf(patches);
      return Math.sqrt(meanOf(patches.map((value) => (value - mean) ** 2))) / mean;
    };
    expect(spread(2)).toBeGreaterThan(1.6 * spread(0));
  });
  it('are found over every seam', () => {
    const box = boxOf({ layout: parseLayout('drop:1/2'), width: 20, height: 12 });
    const map = new CrackMap(box, 3);
    map.add(0.5, 0.5, 0, 0);
    for (const [x, y] of [
      [20.4, 6.6],
      [-19.6, -5.4],
      [0.4, 24.6],
    ]) {
      const near = map.nearest(x, y, 2, nothingNear(), () => false);
      expect(near.vertex).toBe(0);
      expect(near.distance).toBeCloseTo(Math.SQRT2 / 10, 6);
    }
    expect(map.nearest(20.4, 0.6, 2, nothingNear(), () => false).vertex).toBe(-1);
  });
});

describe('cracked wax', () => {
  it('gives fair values for any parameters', () => {
    fc.assert(
      fc.property(anyValues(PARAMETERS), (values) => {
        const tried = tryEffect(wax, values, 'drop:1/2', [90, 60], 150);
        expect(tried.planes).toEqual(values.bath === 'dye' ? ['tint'] : ['load']);
        for (const plane of numbersOf(paintTried(tried, -9, -9, 60, 50))) {
          expect(plane.every((value) => value >= 0 && value <= 1)).toBe(true);
        }
      }),
      { numRuns: 40, seed: 7 },
    );
  });

  it('leaves the cloth alone at no strength, and dyes a crack in its own colour at full', () => {
    const darkest = (strength: number) => {
      const values = { ...CLOSE, width: 1.2, dye: '#803020', blush: 0, bleeding: 0, strength };
      const { tint } = paintTried(tryEffect(wax, values, 'straight', [200, 200]), 0, 0, 200, 200);
      const colours = Array.from({ length: 40_000 }, (_, k) => tint?.subarray(4 * k, 4 * k + 3) ?? []);
      return [...colours.reduce((least, colour) => (colour[0] < least[0] ? colour : least))];
    };
    expect(darkest(0)).toEqual([1, 1, 1]);
    darkest(100).forEach((value, c) => {
      expect(Math.abs(value - [128, 48, 32][c] / 255)).toBeLessThan(0.02);
    });
  });

  it.each<[string, Record<string, unknown>]>([
    ['default', {}],
    ['fine and crisp', { width: 0.15, bleeding: 0, spacing: 10 }],
    ['bleached', { bath: 'bleach', width: 0.6 }],
  ])('%s: 75 dpi is what 300 dpi looks like from four times as far', (_, parameters) => {
    const tried = tryEffect(wax, parameters, 'straight', [800, 600]);
    const near = numbersOf(paintTried(tried, 0, 0, 800, 600))[0];
    const far = numbersOf(paintTried(tried, 0, 0, 200, 150, 4))[0];
    const channels = near.length / 480_000;
    const first = (plane: Float32Array) => plane.filter((_, k) => k % channels === 0);
    const wanted = boxFiltered(first(near), 800, 4);
    expect(correlation(first(far), wanted)).toBeGreaterThan(0.95);
    expect(Math.abs(meanOf(first(far)) - meanOf(wanted))).toBeLessThan(0.01);
  });
});

describe('presets', () => {
  const folder = new URL('../../presets/cracked-wax/', import.meta.url);
  const files = readdirSync(folder);
  it('are at least four, of both baths', () => {
    expect(files.length).toBeGreaterThanOrEqual(4);
    const baths = files.map((file) => {
      const preset = JSON.parse(readFileSync(new URL(file, folder), 'utf8'));
      return resolveValues('cracked-wax', PARAMETERS, preset.parameters).bath;
    });
    expect(new Set(baths)).toEqual(new Set(['dye', 'bleach']));
  });
  it.each(files)('%s shows cracks and leaves most of the artwork', (file) => {
    const preset = JSON.parse(readFileSync(new URL(file, folder), 'utf8'));
    expect(preset.effect).toBe('cracked-wax');
    const tried = tryEffect(wax, preset.parameters, 'drop:1/2', [300, 300], 150);
    const [plane] = numbersOf(paintTried(tried, 0, 0, 300, 300));
    const shown = plane.filter((_, k) => plane.length === 90_000 || k % 4 === 0);
    expect(Math.min(...shown)).toBeLessThan(0.75);
    expect(meanOf(shown)).toBeGreaterThan(0.75);
  });
});

describe('dye that creeps', () => {
  it('is as much as the cracks let in, over every seam', () => {
    const box = boxOf({ layout: parseLayout('brick:1/2'), width: 20, height: 12 });
    const { setting } = openSetting(wax, { box, seed: 'a', parameters: { bleeding: 1, blush: 0 } });
    // One crack of 30 mm, 0.4 mm wide, across the edges of three boxes.
    const trace = {
      xs: Float64Array.from({ length: 31 }, (_, k) => -7.3 + 0.6 * k),
      ys: Float64Array.from({ length: 31 }, (_, k) => 3.1 + 0.8 * k),
      halves: new Float64Array(31).fill(0.2),
      inks: new Float64Array(31).fill(0.5),
    };
    const field = bleedOf(box, [trace], setting.parameters as never, setting.random('blush'));
    const sum = meanOf(field.values) * box.width * box.height;
    expect(sum).toBeCloseTo(1.15 * 30 * 0.4 * 0.5, 2);
    expect(Math.min(...field.values)).toBeGreaterThan(-0.01);
    // A seam would hold a jump: no step from cell to cell is larger than the blur allows.
    const { width, height, lattice } = field;
    let largest = 0;
    for (let j = 0; j < height; j++) {
      for (let i = 0; i < width; i++) {
        const below = j + 1 < height ? i + (j + 1) * width : (i + width - lattice.bx) % width;
        largest = Math.max(largest, Math.abs(field.values[below] - field.values[i + j * width]));
      }
    }
    expect(largest).toBeLessThan(0.35 * Math.max(...field.values));
  });
});
