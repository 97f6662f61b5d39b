import fc from 'fast-check';
import { fieldShape } from 'tenter';
import { describe, expect, it } from 'vitest';
import { boxFiltered, correlation, meanOf } from '../testing/measure.ts';
import {
  type Given,
  painted,
  paintedLayer,
  prepared,
  preparedOn,
  settingFor,
  withoutPaper,
} from '../testing/salt-bloom.ts';
import { throwGrains } from './grains.ts';
import { PARAMETERS, type SaltValues } from './parameters.ts';
import { prepareOnCells } from './prepare.ts';
import { layWash, wetnessAt } from './wash.ts';

const LOOKS: Given[] = [
  {},
  { wetness: 20, salt: 500, feathering: 1 },
  { wetness: 90, salt: 120, grain: 4 },
  { grain: 0.5, salt: 2500, drifts: 1 },
];

describe.each(LOOKS)('salt of %j', (given) => {
  const model = prepared(given);
  const { load } = model;

  it('moves paint and loses none', () => {
    expect(Math.abs(meanOf(load.values) - 1)).toBeLessThan(1e-6);
    const pixels = [36 / 420, 30 / 350] as const;
    expect(Math.abs(meanOf(painted(model, 0, 0, 420, 350, pixels)) - 1)).toBeLessThan(0.01);
  });

  it('lifts paint and never below none', () => {
    let [least, most] = [1, 1];
    for (const value of load.values) [least, most] = [Math.min(least, value), Math.max(most, value)];
    expect(least).toBeGreaterThan(0);
    expect(least).toBeLessThan(0.6);
    // Crowded rims must not pile up into black crumbs.
    expect(most).toBeLessThan(3.2);
  });

  it('is the same bytes each time, and others from another seed', () => {
    expect(prepared(given)).toEqual(model);
    expect(prepared(given, { seed: 'other' }).load.values).not.toEqual(load.values);
  });

  it('is the same picture on cells half the size', () => {
    const half = load.mmPerCellX / 2;
    const fine = painted(withoutPaper(preparedOn(half, given)), 0, 0, 450, 374, half);
    const coarse = painted(withoutPaper(model), 0, 0, 225, 187, 2 * half);
    expect(correlation(coarse, boxFiltered(fine, 450, 2))).toBeGreaterThan(0.97);
  });

  it('is sketched with the same grains in the same places', () => {
    const sketch = prepared(given, { quality: 'sketch' });
    expect(sketch.load.values.length).toBeLessThan(load.values.length / 3);
    const at = (of: typeof model) => painted(withoutPaper(of), 0, 0, 225, 187, 0.16);
    expect(correlation(at(model), at(sketch))).toBeGreaterThan(0.85);
  });

  it('at 75 dpi is what 300 dpi looks like from further away', () => {
    const near = boxFiltered(painted(model, 0, 0, 400, 320, 25.4 / 300), 400, 4);
    const far = painted(model, 0, 0, 100, 80, 25.4 / 75);
    expect(correlation(near, far)).toBeGreaterThan(0.97);
    expect(Math.abs(meanOf(near) - meanOf(far))).toBeLessThan(0.005);
  });
});

describe('grains', () => {
  const thrown = (given: Given, making = {}) => {
    const { setting } = settingFor(given, making);
    const wash = layWash(setting.parameters as SaltValues, setting.box, setting.random);
    return throwGrains(setting.parameters as SaltValues, setting.box, wash, setting.random);
  };

  it('are as many as asked, all within the box', () => {
    const { x, y } = thrown({ salt: 500 }, { width: 100, height: 80 });
    expect(x.length).toBe(400);
    for (let k = 0; k < x.length; k++) expect(x[k] >= 0 && x[k] < 100 && y[k] >= 0 && y[k] < 80).toBe(true);
  });

  it('are the same whatever the quality', () => {
    expect(thrown({}, { quality: 'sketch' })).toEqual(thrown({}));
  });

  it('are of one size, or a few large among many small', () => {
    const alike = thrown({ salt: 3000, mixture: 0 }).size.sort();
    const mixed = thrown({ salt: 3000, mixture: 100 }).size.sort();
    const at = (sizes: Float64Array, share: number) => sizes[Math.floor(share * (sizes.length - 1))];
    expect(at(alike, 0.95) / at(alike, 0.05)).toBeLessThan(1.5);
    expect(at(mixed, 0.95) / at(mixed, 0.3)).toBeGreaterThan(4);
  });

  // A Poisson process has as many grains more or less in a square as the root of their number: ratio 1.
  it('lie evenly or in drifts', () => {
    const unevenness = (drifts: number) => {
      const { x, y } = thrown({ salt: 2000, drifts }, { width: 200, height: 200 });
      const counts = new Float64Array(100);
      for (let k = 0; k < x.length; k++) counts[Math.floor(x[k] / 20) + 10 * Math.floor(y[k] / 20)]++;
      const mean = meanOf(counts);
      return meanOf(counts.map((count) => (count - mean) ** 2)) / mean;
    };
    expect(unevenness(0)).toBeLessThan(1.6);
    expect(unevenness(1)).toBeGreaterThan(20);
  });

  it('draw farther where the wash is wetter, and not at all where it is dry', () => {
    const { setting } = settingFor({ dried: 50, wetness: 80 }, { width: 200, height: 200 });
    const wash = layWash(setting.parameters as SaltValues, setting.box, setting.random);
    const { x, y, wet, reach, size } = thrown(
      { dried: 50, wetness: 80, salt: 900 },
      { width: 200, height: 200 },
    );
    expect(wet[7]).toBe(wetnessAt(wash, x[7], y[7]));
    const own = reach.map((length, k) => length / size[k] ** 0.75);
    expect(correlation(own, wet)).toBeGreaterThan(0.8);
    expect(Math.max(...thrown({ wetness: 0 }).reach)).toBe(0);
  });
});

describe('the wash', () => {
  it('has dried over about the share that was asked', () => {
    const { setting } = settingFor({ dried: 40, wetness: 80 }, { width: 300, height: 300 });
    const wash = layWash(setting.parameters as SaltValues, setting.box, setting.random);
    let dry = 0;
    for (let k = 0; k < 2500; k++) if (wetnessAt(wash, (k % 50) * 6, Math.floor(k / 50) * 6) < 0.4) dry++;
    expect(Math.abs(dry / 2500 - 0.4)).toBeLessThan(0.2);
  });
});

describe('what the salt falls on', () => {
  it('is laid by a brush, and keeps its paint, of either pigment', () => {
    const still = prepared({ salt: 0, unevenness: 0, granulation: 0, brushwork: 1 });
    expect(Math.max(...still.load.values) - Math.min(...still.load.values)).toBeGreaterThan(0.2);
    expect(meanOf(still.load.values)).toBeCloseTo(1, 6);
    const { load, parting } = paintedLayer(prepared({ parting: 1 }), 0, 0, 420, 350, [36 / 420, 30 / 350]);
    for (const channel of [0, 1, 2]) {
      const own = parting.filter((_, k) => k % 3 === channel);
      expect(Math.abs(meanOf(own))).toBeLessThan(0.01);
      expect(own.every((value, k) => load[k] + value > -0.2)).toBe(true);
    }
  });

  it('is lifted where there is paint, and next to not at all on bare paper', () => {
    const { setting } = settingFor({
      salt: 600,
      drifts: 0,
      wetness: 60,
      dried: 0,
      granulation: 0,
      brushwork: 0,
    });
    const cells = 72 * 60;
    const half = (deep: number, pale: number) =>
      Float32Array.from({ length: cells }, (_, k) => (k % 72 < 36 ? deep : pale));
    const artwork = {
      ...fieldShape(setting.box, 0.5),
      ...{ red: half(0.1, 0.93), green: half(0.2, 0.9), blue: half(0.3, 0.85), alpha: half(1, 1) },
    };
    const { load } = prepareOnCells({ ...setting, artwork }, 0.2);
    const column = (from: number, to: number) =>
      load.values.filter((_, k) => {
        const share = (k % load.width) / load.width;
        return share > from && share < to;
      });
    const spread = (values: Float32Array) => Math.max(...values) - Math.min(...values);
    expect(spread(column(0.05, 0.45))).toBeGreaterThan(0.6);
    expect(spread(column(0.6, 0.9))).toBeLessThan(0.25 * spread(column(0.05, 0.45)));
  });
});

describe('gentle results', () => {
  it('leaves a bone-dry wash as it is, specks and all', () => {
    const still = prepared({ wetness: 0, unevenness: 0, granulation: 0, brushwork: 0 });
    expect(Math.max(...still.load.values.map((load) => Math.abs(load - 1)))).toBeLessThan(1e-6);
  });

  it('does as well without a grain', () => {
    const still = prepared({ salt: 0, unevenness: 0, granulation: 0, brushwork: 0 });
    expect(Math.max(...still.load.values.map((load) => Math.abs(load - 1)))).toBeLessThan(1e-6);
  });

  it('keeps the stain in the paper', () => {
    const stained = prepared({ staining: 90, salt: 2000, unevenness: 0, brushwork: 0 });
    expect(Math.min(...stained.load.values)).toBeGreaterThan(0.75);
  });

  it('is finite and not negative for any values', () => {
    const given = fc.record(
      Object.fromEntries(
        Object.entries(PARAMETERS).map(([name, { min, max }]) => [
          name,
          fc.oneof(fc.constantFrom(min, max), fc.double({ min, max, noNaN: true })),
        ]),
      ),
    ) as fc.Arbitrary<Given>;
    const layouts = fc.constantFrom('straight', 'drop:2/5', 'brick:1/2');
    fc.assert(
      fc.property(given, layouts, (parameters, layout) => {
        const model = prepared(parameters, { layout, width: 13, height: 11 });
        const loads = painted(model, -20, -20, 60, 60, 0.2);
        return loads.every((load) => Number.isFinite(load) && load >= 0 && load < 50);
      }),
      { numRuns: 60, seed: 11 },
    );
  });

  it('says how many grains fell', () => {
    const { setting, reports } = settingFor({ salt: 250 });
    prepareOnCells(setting, 0.4);
    expect(reports).toEqual([{ name: 'grains', value: 27, unit: 'count' }]);
  });
});
