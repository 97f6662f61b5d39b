import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { randomStream } from 'tenter';
import { resolveValues } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { anyValues, expectAnyCut, expectCloses, expectSeamless, numbersOf } from '../testing/habits.ts';
import { type Made, paintTried, tryEffect } from '../testing/make.ts';
import { boxFiltered, correlation, meanOf } from '../testing/measure.ts';
import type { Dab } from './dabs.ts';
import { FACE_SCALE, spongeFace } from './face.ts';
import sponged from './index.ts';
import type { SpongeModel } from './model.ts';
import { PARAMETERS } from './parameters.ts';

const SMALL = { sponge: 14, pores: 0.8 };
it('refuses a wall that so small a sponge would never be done with', () => {
  const wall = { ...SMALL, sponge: 12 };
  expect(() => tryEffect(sponged, wall, 'straight', [3000, 3000], 25.4)).toThrow(
    'a sponge of at least 19 mm for a repeat of 3000 x 3000 mm',
  );
  expect(() => tryEffect(sponged, { ...wall, sponge: 19 }, 'straight', [3000, 3000], 25.4)).not.toThrow();
});

/** The plane that tells how much was dabbed: the load, or the tint's alpha. */
const amountOf = (tried: Made, x: number, y: number, width: number, height: number, scale = 1) => {
  const { load, tint } = paintTried(tried, x, y, width, height, scale);
  return load ?? (tint as Float32Array).filter((_, k) => k % 4 === 3);
};

describe('a sponge closes', () => {
  it.each<[string, [number, number], Record<string, unknown>]>([
    ['straight', [301, 203], {}],
    ['straight', [97, 61], { action: 'off' }],
    ['drop:1/2', [300, 202], { action: 'printed' }],
    ['drop:1/3', [251, 201], { second: 60 }],
    ['drop:2/5', [240, 205], { passes: 4 }],
    ['brick:1/2', [250, 203], { action: 'off' }],
    ['brick:1/3', [252, 203], {}],
    ['drop:1/2', [59, 82], { sponge: 80, action: 'off' }],
  ])('over %s %j %j', (layout, pixels, parameters) => {
    const tried = tryEffect(sponged, { ...SMALL, ...parameters }, layout, pixels);
    expectCloses(tried);
    expectSeamless(tried);
  });
  it('however it is cut into bands, at any density', () => {
    for (const dpi of [300, 72]) expectAnyCut(tryEffect(sponged, SMALL, 'drop:1/2', [120, 90], dpi));
  });
  it('twice the same, and with another seed another', () => {
    const once = (seed: string) =>
      amountOf(tryEffect(sponged, SMALL, 'straight', [220, 190], 300, seed), 0, 0, 220, 190);
    expect(once('a')).toEqual(once('a'));
    expect(correlation(once('a'), once('b'))).toBeLessThan(0.5);
  });
});

describe('the face of a sponge', () => {
  const faces = spongeFace(randomStream('a', 'face'));
  it('has mean 0 and deviation 1, and loses what coarser cells do not show', () => {
    for (const { heights, lost } of faces) {
      const mean = meanOf(heights) / FACE_SCALE;
      const variance = meanOf(Float64Array.from(heights, (height) => (height / FACE_SCALE) ** 2)) - mean ** 2;
      expect(Math.abs(mean)).toBeLessThan(0.02);
      // Quantising adds a twelfth of a step squared.
      expect(Math.abs(variance + lost - 1)).toBeLessThan(0.03);
    }
  });
  it('has holes of many sizes: more of its area lies deep than stands high', () => {
    const heights = faces[0].heights;
    const share = (isCounted: (height: number) => boolean) =>
      heights.filter(isCounted).length / heights.length;
    expect(share((height) => height < -1.8 * FACE_SCALE)).toBeGreaterThan(
      2 * share((height) => height > 1.8 * FACE_SCALE),
    );
  });
  it('closes on itself', () => {
    const { heights, side } = faces[0];
    const step = (column: number) => {
      let sum = 0;
      const next = (column + 1) % side;
      for (let j = 0; j < side; j++) sum += Math.abs(heights[j * side + next] - heights[j * side + column]);
      return sum;
    };
    const inside = Array.from({ length: side - 1 }, (_, column) => step(column));
    expect(step(side - 1)).toBeLessThan(1.05 * Math.max(...inside));
  });
});

describe('a sponge', () => {
  it('gives fair values for any parameters', () => {
    fc.assert(
      fc.property(anyValues(PARAMETERS), (values) => {
        const tried = tryEffect(sponged, values, 'drop:1/2', [90, 60], 150);
        expect(tried.planes).toEqual(values.action === 'on' ? ['tint'] : ['load']);
        for (const plane of numbersOf(paintTried(tried, -9, -9, 60, 50))) {
          expect(plane.every((value) => value >= 0 && value <= (values.action === 'on' ? 1 : 1.6))).toBe(
            true,
          );
        }
      }),
      { numRuns: 14, seed: 7 },
    );
  });

  it('covers more the harder it is pressed and the more often', () => {
    const covered = (parameters: object) => {
      const tried = tryEffect(sponged, { ...SMALL, strength: 100, ...parameters }, 'straight', [300, 300]);
      return meanOf(amountOf(tried, 0, 0, 300, 300));
    };
    const byPressure = [0, 0.5, 1].map((pressure) => covered({ pressure }));
    expect(byPressure).toEqual([...byPressure].sort((a, b) => a - b));
    expect(byPressure[2] - byPressure[0]).toBeGreaterThan(0.4);
    const byPasses = [0.5, 1, 3].map((passes) => covered({ passes }));
    expect(byPasses).toEqual([...byPasses].sort((a, b) => a - b));
  });

  it('is nothing at no strength, and never more than its strength', () => {
    for (const action of ['on', 'off']) {
      const tried = tryEffect(sponged, { ...SMALL, action, strength: 0 }, 'straight', [90, 90]);
      expect(new Set(amountOf(tried, 0, 0, 90, 90))).toEqual(new Set([action === 'on' ? 0 : 1]));
    }
    const tried = tryEffect(
      sponged,
      { ...SMALL, strength: 40, passes: 5, pressure: 1 },
      'straight',
      [90, 90],
    );
    const alpha = amountOf(tried, 0, 0, 90, 90);
    expect(Math.max(...alpha)).toBeGreaterThan(0.35);
    expect(Math.max(...alpha)).toBeLessThanOrEqual(Math.fround(0.4));
  });

  it('shows both colours and what they mix to, nothing else', () => {
    const colours = { colour: '#ff0000', secondColour: '#0000ff', second: 50 };
    const { tint } = paintTried(
      tryEffect(sponged, { ...SMALL, ...colours }, 'straight', [200, 200]),
      0,
      0,
      200,
      200,
    );
    let [reds, blues] = [0, 0];
    for (let k = 0; k < 160_000; k += 4) {
      const [red, green, blue, alpha] = tint?.subarray(k, k + 4) ?? [];
      expect(green).toBe(0);
      expect(red + blue).toBeCloseTo(1, 5);
      if (alpha > 0.3 && red > 0.95) reds++;
      if (alpha > 0.3 && blue > 0.95) blues++;
    }
    expect(Math.min(reds, blues)).toBeGreaterThan(2000);
  });

  it('is never stamped alike: one mark does not foretell another', () => {
    const tried = tryEffect(sponged, { ...SMALL, action: 'off', drifts: 0 }, 'straight', [400, 400]);
    const model = tried.model as SpongeModel;
    const one = (dab: Dab) =>
      amountOf(
        { ...tried, model: { ...model, dabs: [{ ...dab, x: 15, y: 15, cos: 1, sin: 0, side: 1 }] } },
        107,
        107,
        140,
        140,
      );
    const marks = model.dabs.slice(0, 8).map(one);
    for (let a = 0; a < marks.length; a++) {
      expect(new Set(marks[a]).size).toBeGreaterThan(50);
      for (let b = 0; b < a; b++) expect(correlation(marks[a], marks[b])).toBeLessThan(0.35);
    }
  });

  it.each<[string, Record<string, unknown>]>([
    ['on', {}],
    ['a fine sponge, off', { action: 'off', pores: 0.7, sponge: 40 }],
    ['printed', { action: 'printed', pores: 4 }],
  ])('%s: 75 dpi is what 300 dpi looks like from four times as far', (_, parameters) => {
    const tried = tryEffect(sponged, parameters, 'straight', [800, 600]);
    const wanted = boxFiltered(amountOf(tried, 0, 0, 800, 600), 800, 4);
    const far = amountOf(tried, 0, 0, 200, 150, 4);
    expect(correlation(far, wanted)).toBeGreaterThan(0.95);
    expect(Math.abs(meanOf(far) - meanOf(wanted))).toBeLessThan(0.006);
    // Pixels that hide even the samples' pores.
    const farther = amountOf(tried, 0, 0, 50, 37, 16);
    const blurred = boxFiltered(amountOf(tried, 0, 0, 800, 592), 800, 16);
    expect(correlation(farther, blurred)).toBeGreaterThan(0.95);
    expect(Math.abs(meanOf(farther) - meanOf(blurred))).toBeLessThan(0.008);
    const farthest = amountOf(tried, 0, 0, 16, 12, 50);
    expect(Math.abs(meanOf(farthest) - meanOf(amountOf(tried, 0, 0, 800, 600)))).toBeLessThan(0.012);
  });
});

describe('presets', () => {
  const folder = new URL('../../presets/sponged/', import.meta.url);
  const files = readdirSync(folder);
  const read = (file: string) => JSON.parse(readFileSync(new URL(file, folder), 'utf8'));
  it('are at least four, of every action', () => {
    expect(files.length).toBeGreaterThanOrEqual(4);
    const actions = files.map((file) => resolveValues('sponged', PARAMETERS, read(file).parameters).action);
    expect(new Set(actions)).toEqual(new Set(PARAMETERS.action.options));
  });
  it.each(files)('%s shows marks and leaves the artwork to be seen', (file) => {
    const preset = read(file);
    expect(preset.effect).toBe('sponged');
    const tried = tryEffect(sponged, preset.parameters, 'drop:1/2', [200, 200], 40);
    const amount = amountOf(tried, 0, 0, 200, 200);
    const sorted = [...amount].sort((a, b) => a - b);
    expect(sorted[39_000] - sorted[1_000]).toBeGreaterThan(0.25);
    const mean = meanOf(amount);
    if (tried.planes[0] === 'tint') expect(mean).toBeLessThan(0.55);
    else expect(mean).toBeGreaterThan(0.5);
  });
});
