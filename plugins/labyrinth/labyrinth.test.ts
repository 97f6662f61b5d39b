import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyValues, expectAnyCut, expectCloses, expectSeamless, numbersOf } from '../testing/habits.ts';
import { makerOf, paintTried, tryEffect } from '../testing/make.ts';
import { boxFiltered, correlation, meanOf } from '../testing/measure.ts';
import { edgeTable, loadAt } from './edge.ts';
import labyrinth from './index.ts';
import type { LabyrinthModel } from './model.ts';
import { PARAMETERS } from './parameters.ts';

const make = makerOf<LabyrinthModel>(labyrinth);

describe('a labyrinth closes', () => {
  it.each<[string, [number, number], Record<string, unknown>]>([
    ['straight', [301, 203], {}],
    ['drop:1/2', [300, 202], { figure: 'worms', relief: 0.5 }],
    ['drop:2/5', [240, 205], { figure: 'spots' }],
    ['brick:1/3', [252, 203], { figure: 'holes', action: 'dye' }],
    ['drop:1/2', [59, 82], { width: 30 }],
  ])('over %s %j %j', (layout, pixels, parameters) => {
    const tried = tryEffect(labyrinth, parameters, layout, pixels, 150);
    expectCloses(tried);
    expectSeamless(tried);
  });
  it('however it is cut into bands, at any density', () => {
    for (const dpi of [300, 72]) expectAnyCut(tryEffect(labyrinth, {}, 'drop:1/2', [120, 90], dpi));
  });
});

describe('a labyrinth', () => {
  it.each(['maze', 'worms', 'spots', 'holes'])(
    'of %s lives in a tile that is smaller than its lines are apart',
    (figure) => {
      for (const layout of ['straight', 'drop:1/2', 'drop:1/3', 'brick:1/2']) {
        for (const seed of ['1', '2', '3']) {
          const tried = tryEffect(labyrinth, { figure, width: 40 }, layout, [120, 90], 150, seed);
          const [load] = numbersOf(paintTried(tried, 0, 0, 120, 90));
          expect(Math.max(...load) - Math.min(...load)).toBeGreaterThan(0.1);
        }
      }
    },
  );
  it('gives fair values for any parameters', () => {
    fc.assert(
      fc.property(anyValues(PARAMETERS), (values) => {
        const tried = tryEffect(labyrinth, values, 'drop:1/2', [90, 60], 100);
        for (const plane of numbersOf(paintTried(tried, -9, -9, 60, 50))) {
          expect(plane.every((value) => value >= 0 && value <= 4)).toBe(true);
        }
      }),
      { numRuns: 25, seed: 7 },
    );
  });

  it('has crisp edges however coarse its cells: at 600 dpi an edge is two or three pixels wide', () => {
    const made = make({ width: 12, softness: 0, fray: 0, edge: 0, drift: 0 }, 'straight', '60x50mm', 600);
    expect(made.model.level.mmPerCellX).toBeGreaterThan(0.9);
    const { load } = paintTried(made, 0, 0, 600, 600);
    const between = load!.filter((value) => value > 0.26 && value < 0.99).length;
    // One in a hundred pixels, in lines 12 mm apart with two edges each: 2 / 283 per pixel of edge, and slant.
    expect(between / load!.length).toBeLessThan(0.02);
    expect(load!.filter((value) => value < 0.26).length / load!.length).toBeGreaterThan(0.2);
  });

  it.each(['maze', 'worms', 'spots', 'holes'])(
    'of %s takes about the share that its weight asks for',
    (figure) => {
      const share = (weight: number) => {
        const made = make({ figure, weight, fray: 0, softness: 0, strength: 100 }, 'drop:1/2', '80x80mm', 50);
        const { load } = paintTried(made, 0, 0, 150, 150);
        return load!.filter((value) => value < 0.5).length / load!.length;
      };
      expect(share(0)).toBeGreaterThan(0.08);
      expect(share(1)).toBeGreaterThan(1.3 * share(0));
      expect(share(1)).toBeLessThan(0.93);
    },
  );

  it('has the composition of the finished figure in its sketch', () => {
    for (const figure of ['maze', 'worms', 'spots', 'holes']) {
      const [done, sketched] = (['finished', 'sketch'] as const).map((quality) => {
        const made = make({ figure }, 'drop:1/2', '80x80mm', { dpi: 50, quality });
        return boxFiltered(paintTried(made, 0, 0, 156, 156).load!, 156, 3);
      });
      expect(correlation(done, sketched), figure).toBeGreaterThan(0.6);
    }
  });

  it('75 dpi is as light as 300 dpi from four times as far, though loads are exponents', () => {
    for (const parameters of [{ width: 3 }, { width: 4, figure: 'spots', strength: 100 }]) {
      const made = make(parameters, 'straight', '70x60mm');
      const light = (plane: Float32Array) => plane.map((load) => 0.1 ** load);
      const near = boxFiltered(light(paintTried(made, 0, 0, 800, 600).load!), 800, 4);
      const far = light(paintTried(made, 0, 0, 200, 150, 4).load!);
      expect(correlation(far, near)).toBeGreaterThan(0.98);
      expect(Math.abs(meanOf(far) / meanOf(near) - 1)).toBeLessThan(0.02);
    }
  });

  it('holds in an edge the mean light of a pixel', () => {
    const { model } = make({ strength: 100, softness: 0, edge: 0 }, 'straight', '30x30mm');
    const table = edgeTable(model, 0.5);
    // Half a pixel of load 0 and half of load 1, over paint of a tenth: light 0.55.
    expect(0.1 ** loadAt(table, 0)).toBeCloseTo(0.55, 2);
    expect([loadAt(table, -3), loadAt(table, 3)].map((load) => Number(load.toFixed(5)))).toEqual([1, 0]);
  });
});

describe('presets', () => {
  const folder = new URL('../../presets/labyrinth/', import.meta.url);
  const files = readdirSync(folder);
  it('are at least six, of all figures', () => {
    expect(files.length).toBeGreaterThanOrEqual(6);
    const presets = files.map((file) => JSON.parse(readFileSync(new URL(file, folder), 'utf8')));
    const figures = presets.map(({ parameters }) => parameters.figure ?? 'maze');
    expect(new Set(figures)).toEqual(new Set(PARAMETERS.figure.options));
  });
});
