import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyValues, expectAnyCut, expectCloses, expectSeamless, numbersOf } from '../testing/habits.ts';
import { paintTried, tryEffect } from '../testing/make.ts';
import { boxFiltered, correlation, meanOf } from '../testing/measure.ts';
import brush from './index.ts';
import type { BrushModel } from './model.ts';
import { PARAMETERS } from './parameters.ts';

/** A small brush, so that a small tile holds many strokes. */
const SMALL = { length: 25, width: 6, bristle: 0.2, tooth: 0.3 };

describe('dry brush closes', () => {
  it.each<[string, [number, number], Record<string, unknown>]>([
    ['straight', [301, 203], {}],
    ['straight', [97, 61], { direction: 90 }],
    ['drop:1/2', [300, 202], { straying: 60 }],
    ['drop:1/3', [251, 201], {}],
    ['drop:2/5', [240, 205], { crossing: 50 }],
    ['brick:1/2', [250, 203], {}],
    ['drop:1/2', [59, 82], { length: 130, width: 26 }],
  ])('over %s %j %j', (layout, pixels, parameters) => {
    const tried = tryEffect(brush, { ...SMALL, ...parameters }, layout, pixels);
    expectCloses(tried);
    expectSeamless(tried);
  });
  it('however it is cut into bands, at any density', () => {
    for (const dpi of [300, 72]) expectAnyCut(tryEffect(brush, SMALL, 'drop:1/2', [120, 90], dpi));
    // Strokes whose ends show, for the grain is rough: none may be missed by a narrow band.
    const rough = { length: 10, bend: 1, roughness: 2, layers: 5, direction: 0 };
    expectAnyCut(tryEffect(brush, rough, 'drop:1/2', [120, 88], 203, 'prove'));
  });
  it('twice the same, and with another seed another', () => {
    const once = (seed: string) =>
      numbersOf(paintTried(tryEffect(brush, SMALL, 'straight', [120, 90], 300, seed), 0, 0, 120, 90));
    expect(once('a')).toEqual(once('a'));
    expect(correlation(once('a')[0], once('b')[0])).toBeLessThan(0.5);
  });
});

describe('a surface below', () => {
  const made = tryEffect(brush, { ...SMALL, underpaint: 0, roughness: 0.6 }, 'straight', [120, 90]);
  const band = { x: 0, y: 0, width: 120, height: 90, mmPerPixelX: 0.085, mmPerPixelY: 0.085 };
  const loadOver = (relief?: Float32Array) => {
    const layer = { width: 120, height: 90, load: new Float32Array(120 * 90).fill(1) };
    brush.paint(made.model as never, band, layer, (relief && { width: 120, height: 90, relief }) as never);
    return layer.load;
  };
  it('that is level changes no bit', () => {
    expect(loadOver(new Float32Array(120 * 90))).toEqual(loadOver());
  });
  it('is met on its tops and missed in its hollows', () => {
    const relief = Float32Array.from({ length: 120 * 90 }, (_, k) => 0.06 * Math.sin((k % 120) * 0.5));
    const load = loadOver(relief);
    expect(correlation(relief, load)).toBeGreaterThan(0.3);
    const over = (isTop: boolean) =>
      meanOf(load.filter((_, k) => (isTop ? relief[k] > 0.05 : relief[k] < -0.05)));
    expect(over(true)).toBeGreaterThan(1.4 * over(false));
  });
});

describe('dry brush', () => {
  it('gives fair loads for any values', () => {
    fc.assert(
      fc.property(anyValues(PARAMETERS), (values) => {
        const { load } = paintTried(tryEffect(brush, values, 'drop:1/2', [90, 60], 150), -9, -9, 60, 50);
        expect(load?.every((value) => value >= 0 && value < 4)).toBe(true);
      }),
      { numRuns: 40, seed: 7 },
    );
  });

  it('covers less the drier it is, and wholly where the paper has no tooth and the brush is full', () => {
    const bare = (parameters: object) => {
      const tried = tryEffect(brush, { ...SMALL, underpaint: 0, ...parameters }, 'straight', [300, 300]);
      const { load } = paintTried(tried, 0, 0, 300, 300);
      return (load?.filter((value) => value < 0.3).length ?? 0) / 90_000;
    };
    const shares = [0, 0.3, 0.6, 1].map((dryness) => bare({ dryness }));
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(shares[3] - shares[0]).toBeGreaterThan(0.3);
    expect(bare({ dryness: 0, roughness: 0, layers: 5 })).toBeLessThan(0.01);
  });

  it('leaves as much paint as the mean it is levelled to', () => {
    const tried = tryEffect(brush, { ...SMALL, dryness: 0.35 }, 'straight', [400, 400]);
    expect(Math.abs(meanOf(paintTried(tried, 0, 0, 400, 400).load ?? []) - 0.92)).toBeLessThan(0.03);
  });

  it.each<[string, Record<string, unknown>]>([
    ['default', {}],
    ['fine and dry', { ...SMALL, dryness: 0.8 }],
    ['coarse', { bristle: 1, tooth: 1.4, width: 50 }],
  ])('%s: 75 dpi is what 300 dpi looks like from four times as far', (_, parameters) => {
    const tried = tryEffect(brush, parameters, 'straight', [800, 600]);
    const near = paintTried(tried, 0, 0, 800, 600).load as Float32Array;
    const far = paintTried(tried, 0, 0, 200, 150, 4).load as Float32Array;
    const wanted = boxFiltered(near, 800, 4);
    expect(correlation(far, wanted)).toBeGreaterThan(0.93);
    expect(Math.abs(meanOf(far) - meanOf(wanted))).toBeLessThan(0.015);
  });

  it('draws tracks along its strokes: like from like along them, not across', () => {
    const tried = tryEffect(
      brush,
      { direction: 0, straying: 0, bend: 0, roughness: 0, layers: 1, length: 60, width: 30 },
      'straight',
      [500, 500],
    );
    const load = paintTried(tried, 0, 0, 500, 500).load as Float32Array;
    const shifted = (dx: number, dy: number) => {
      const a: number[] = [];
      const b: number[] = [];
      for (let y = 0; y < 480; y++)
        for (let x = 0; x < 480; x++) {
          a.push(load[y * 500 + x]);
          b.push(load[(y + dy) * 500 + x + dx]);
        }
      return correlation(a, b);
    };
    expect(shifted(15, 0)).toBeGreaterThan(0.9);
    expect(shifted(15, 0) - shifted(0, 15)).toBeGreaterThan(0.15);
  });
});

describe('the coat under the strokes', () => {
  it('was brushed on as they are: streaks along them, and next to no grain', () => {
    const made = tryEffect(brush, { underpaint: 60, direction: 0 }, 'straight', [400, 400], 100);
    const bare = { ...made, model: { ...(made.model as BrushModel), strokes: [] } };
    const load = paintTried(bare, 0, 0, 400, 400).load as Float32Array;
    const unlike = (step: number) =>
      meanOf(load.subarray(0, 150_000).map((value, k) => (value - load[k + step]) ** 2));
    // 2.5 mm along a streak, and across it.
    expect(unlike(400 * 10)).toBeGreaterThan(4 * unlike(10));
    expect(Math.sqrt(unlike(1))).toBeLessThan(0.06);
    expect(Math.abs(meanOf(load) - 0.6)).toBeLessThan(0.06);
  });
});

describe('presets', () => {
  const folder = new URL('../../presets/dry-brush/', import.meta.url);
  const files = readdirSync(folder);
  it('are at least four', () => expect(files.length).toBeGreaterThanOrEqual(4));
  it.each(files)('%s paints with bare and with painted places', (file) => {
    const preset = JSON.parse(readFileSync(new URL(file, folder), 'utf8'));
    expect(preset.effect).toBe('dry-brush');
    const tried = tryEffect(brush, preset.parameters, 'drop:1/2', [300, 300], 60);
    const { load } = paintTried(tried, 0, 0, 300, 300);
    expect(load?.some((value) => value < 0.6)).toBe(true);
    expect(load?.some((value) => value > 0.9)).toBe(true);
    expect(meanOf(load ?? [])).toBeGreaterThan(0.6);
  });
});
