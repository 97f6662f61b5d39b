import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { layWash, randomStream } from 'tenter';
import { resolveValues } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { anyValues, expectAnyCut, expectCloses, expectSeamless, numbersOf } from '../testing/habits.ts';
import { type Made, paintTried, tryEffect } from '../testing/make.ts';
import { boxFiltered, correlation, meanOf } from '../testing/measure.ts';
import flatWash from './index.ts';
import { PARAMETERS } from './parameters.ts';

const SMALL = { brush: 9, stroke: 40, drying: 50, backRuns: 12, skips: 0.8 };

const loadOf = (tried: Made, x: number, y: number, width: number, height: number, scale = 1) =>
  paintTried(tried, x, y, width, height, scale).load!;

/** The share of pixels that hold less than `most`. */
const shareBelow = (loads: Float32Array, most: number) =>
  loads.filter((load) => load < most).length / loads.length;

describe('a wash closes', () => {
  it.each<[string, [number, number], Record<string, unknown>]>([
    ['straight', [301, 203], {}],
    ['straight', [97, 61], { direction: 90 }],
    ['drop:1/2', [300, 202], { parting: 1 }],
    ['drop:1/3', [251, 201], { direction: 33 }],
    ['drop:2/5', [240, 205], { stroke: 2000 }],
    ['brick:1/2', [250, 203], { granulation: 2 }],
    ['brick:1/3', [252, 203], { parting: 0 }],
    ['drop:1/2', [59, 82], { brush: 200 }],
  ])('over %s %j %j', (layout, pixels, parameters) => {
    const tried = tryEffect(flatWash, { ...SMALL, ...parameters }, layout, pixels);
    expectCloses(tried);
    expectSeamless(tried);
  });
  it('however it is cut into bands, at any density', () => {
    for (const dpi of [300, 72]) expectAnyCut(tryEffect(flatWash, SMALL, 'drop:1/2', [120, 90], dpi));
  });
  it('twice the same, and with another seed another', () => {
    const once = (seed: string) =>
      loadOf(tryEffect(flatWash, SMALL, 'straight', [220, 190], 300, seed), 0, 0, 220, 190);
    expect(once('a')).toEqual(once('a'));
    expect(correlation(once('a'), once('b'))).toBeLessThan(0.5);
  });
});

describe('a wash', () => {
  it('gives fair values for any parameters', () => {
    fc.assert(
      fc.property(anyValues(PARAMETERS), (values) => {
        const tried = tryEffect(flatWash, values, 'drop:1/2', [90, 60], 150);
        expect(tried.planes).toEqual((values.parting as number) > 0 ? ['load', 'parting'] : ['load']);
        const [load, parting = new Float32Array(0)] = numbersOf(paintTried(tried, -9, -9, 60, 50));
        expect(load.every((value) => value >= 0 && value < 12)).toBe(true);
        expect(parting.every((value) => Math.abs(value) < 12)).toBe(true);
      }),
      { numRuns: 14, seed: 7 },
    );
  });

  it('moves paint and loses none, of either pigment', () => {
    const box = tryEffect(flatWash, SMALL, 'drop:1/2', [300, 200]).grid.box;
    const values = { ...SMALL, drying: 0.5, direction: -4, edges: 1, bead: 1, unevenness: 1, grading: 0.5 };
    const { paint, heavy } = layWash(box, { ...values, granulation: 1, tooth: 0.8 }, (name) =>
      randomStream('paint', name),
    );
    expect(meanOf(paint.values)).toBeCloseTo(1, 6);
    const parted = paint.values.map((amount, k) => amount * heavy.values[k]);
    expect(meanOf(parted)).toBeCloseTo(0, 6);
    expect(Math.max(...parted) - Math.min(...parted)).toBeGreaterThan(0.2);
  });

  it('settles where it was deep and stood long, in patches, and hardly where it is thin', () => {
    const box = tryEffect(flatWash, SMALL, 'drop:1/2', [900, 700]).grid.box;
    const of = (granulation: number) =>
      layWash(
        box,
        {
          ...{ brush: 30, stroke: 90, direction: -4, drying: 0.3, edges: 1, bead: 1, unevenness: 1.4 },
          ...{ grading: 0.5, backRuns: 2, skips: 0, granulation, tooth: 0.8 },
        },
        (name) => randomStream('settling', name),
      );
    const { paint, settling } = of(1);
    const [deep, thin]: number[][] = [[], []];
    for (let j = 0; j < settling.height; j++)
      for (let i = 0; i < settling.width; i++) {
        const column = Math.floor(((i + 0.5) * settling.mmPerCellX) / paint.mmPerCellX);
        const row = Math.floor(((j + 0.5) * settling.mmPerCellY) / paint.mmPerCellY);
        const laid = paint.values[row * paint.width + column];
        if (laid > 1.3) deep.push(settling.values[j * settling.width + i]);
        if (laid < 0.55) thin.push(settling.values[j * settling.width + i]);
      }
    expect(Math.min(deep.length, thin.length)).toBeGreaterThan(30);
    expect(meanOf(deep)).toBeGreaterThan(2.2 * meanOf(thin));
    deep.sort((a, b) => a - b);
    expect(deep[Math.floor(0.9 * deep.length)]).toBeGreaterThan(1.6 * deep[Math.floor(0.1 * deep.length)]);
    expect(of(0).settling.values.every((value) => value === 0)).toBe(true);
  });

  it('parts the hues by what is asked, and each channel keeps its paint', () => {
    const parted = (parting: number) => {
      const tried = tryEffect(flatWash, { ...SMALL, skips: 0, parting }, 'straight', [300, 300]);
      return paintTried(tried, 0, 0, 300, 300).parting!;
    };
    const [half, whole] = [parted(0.5), parted(1)];
    expect(whole.every((value, k) => Math.abs(value - 2 * half[k]) < 1e-5)).toBe(true);
    for (const channel of [0, 1, 2]) {
      const own = whole.filter((_, k) => k % 3 === channel);
      expect(Math.abs(meanOf(own))).toBeLessThan(0.02);
    }
  });

  it('gathers at edges that dried, leaves flecks where the brush skips, and settles in hollows', () => {
    const calm = { ...SMALL, drying: 60, skips: 0, granulation: 0, backRuns: 0, unevenness: 0, parting: 0 };
    const of = (parameters: object) =>
      loadOf(tryEffect(flatWash, { ...calm, ...parameters }, 'straight', [400, 400]), 0, 0, 400, 400);
    const steep = (loads: Float32Array) =>
      meanOf(loads.map((load, k) => Math.abs(load - (loads[k + 400] ?? load))));
    expect(steep(of({ edges: 2 }))).toBeGreaterThan(1.5 * steep(of({ edges: 0 })));
    expect(steep(of({}))).toBeGreaterThan(1.5 * steep(of({ drying: 0 })));
    expect(steep(of({ granulation: 2 }))).toBeGreaterThan(2 * steep(of({})));
    const bare = (skips: number) =>
      shareBelow(
        loadOf(
          tryEffect(flatWash, { skips, granulation: 0, backRuns: 0 }, 'straight', [500, 500], 50),
          0,
          0,
          500,
          500,
        ),
        0.4,
      );
    // In a tile of four to six laps a few strokes skip at all.
    expect(bare(1)).toBeGreaterThan(0.003);
    expect(bare(0)).toBeLessThan(0.0003);
  });

  it('has one crisp side at the front of a back-run: it rises within a pixel or two and falls over millimetres', () => {
    const tried = tryEffect(
      flatWash,
      { ...SMALL, drying: 0, skips: 0, granulation: 0, unevenness: 0, bead: 0, edges: 1.5, backRuns: 12 },
      'straight',
      [600, 600],
    );
    const loads = loadOf(tried, 0, 0, 600, 600);
    const steps = loads.map((load, k) => Math.abs(load - (loads[k + 1] ?? load))).sort();
    expect(steps[Math.floor(0.999 * steps.length)]).toBeGreaterThan(12 * steps[steps.length >> 1]);
  });

  it('75 dpi is what 300 dpi looks like from four times as far', () => {
    const tried = tryEffect(flatWash, { brush: 30 }, 'straight', [800, 600]);
    const wanted = boxFiltered(loadOf(tried, 0, 0, 800, 600), 800, 4);
    const far = loadOf(tried, 0, 0, 200, 150, 4);
    expect(correlation(far, wanted)).toBeGreaterThan(0.95);
    expect(Math.abs(meanOf(far) - meanOf(wanted))).toBeLessThan(0.01);
  });
});

describe('presets', () => {
  const folder = new URL('../../presets/flat-wash/', import.meta.url);
  const files = readdirSync(folder);
  const read = (file: string) => JSON.parse(readFileSync(new URL(file, folder), 'utf8'));
  const contrast = (file: string) => {
    const tried = tryEffect(flatWash, read(file).parameters, 'drop:1/2', [300, 300], 40);
    const sorted = [...loadOf(tried, 0, 0, 300, 300)].sort((a, b) => a - b);
    return sorted[85_500] - sorted[4_500];
  };
  it('are at least six, from a whisper to a flood', () => {
    expect(files.length).toBeGreaterThanOrEqual(6);
    const contrasts = files.map(contrast);
    expect(Math.max(...contrasts)).toBeGreaterThan(2.5 * Math.min(...contrasts));
    expect(Math.min(...contrasts)).toBeGreaterThan(0.1);
  });
  it.each(files)('%s holds valid values', (file) => {
    const preset = read(file);
    expect([preset.effect, typeof preset.summary]).toEqual(['flat-wash', 'string']);
    expect(resolveValues('flat-wash', PARAMETERS, preset.parameters)).toMatchObject(preset.parameters);
  });
});
