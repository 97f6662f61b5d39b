import fc from 'fast-check';
import { boxOf, parseLayout, parseSize, randomStream } from 'tenter';
import { openSetting, resolveValues } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { boxFiltered, correlation, meanOf } from '../testing/measure.ts';
import { makeWet, paintWet } from '../testing/wet-into-wet.ts';
import { FINISHED } from './fineness.ts';
import { floodPaper } from './flood.ts';
import wet from './index.ts';
import { PARAMETERS, type Values } from './parameters.ts';

const BUSY = { blooms: 12, spatter: 30, charges: 6, floods: 1 };

describe('the load', () => {
  it('is 1 on the mean, as the flow left it within 1e-6 and as it is painted within 1 %', () => {
    const made = makeWet({ ...BUSY, variety: 1 }, 'drop:1/2', '60x50mm', { dpi: 150 });
    const values = resolveValues('wet-into-wet', PARAMETERS, { ...BUSY, variety: 1 }) as Values;
    const box = boxOf({ layout: parseLayout('drop:1/2'), ...parseSize('60x50mm') });
    const flowed = floodPaper(values, box, (name) => randomStream('test', name), FINISHED).flood.base.values;
    expect(Math.abs(meanOf(Float64Array.from(flowed, Math.exp)) - 1)).toBeLessThan(1e-6);
    const { load } = paintWet(made, 0, 0, made.grid.width, made.grid.height);
    expect(Math.abs(meanOf(load) - 1)).toBeLessThan(0.01);
    const stream = randomStream('look', 'chance');
    const chance = load.map(() => stream.next());
    expect(Math.abs(correlation(load, chance))).toBeLessThan(0.1);
    const spread = load.map((value) => (value - 1) ** 2);
    expect(Math.sqrt(meanOf(spread))).toBeGreaterThan(0.15);
  });
});

describe('grids', () => {
  const box = boxOf({ layout: parseLayout('drop:1/2'), ...parseSize('48x36mm') });
  const values = resolveValues('wet-into-wet', PARAMETERS, { ...BUSY, granulation: 0 }) as Values;
  const streams = (name: string) => randomStream('test', name);

  it('twice as fine at the same mm give the same paint', () => {
    const { fronts, flow, steps } = FINISHED;
    const one = floodPaper(values, box, streams, FINISHED).model.base;
    const fine = { fronts: fronts / 2, flow: flow / 2, steps: 2 * steps };
    const two = floodPaper(values, box, streams, fine).model.base;
    expect([two.width, two.height]).toEqual([2 * one.width, 2 * one.height]);
    const halved = boxFiltered(two.values.map(Math.exp), two.width, 2);
    const kin = correlation(one.values.map(Math.exp), halved);
    expect(kin).toBeGreaterThan(0.97);
  });

  it('of a sketch hold the same marks and much the same paint', () => {
    const [sketch, finished] = (['sketch', 'finished'] as const).map((quality) =>
      makeWet(BUSY, 'brick:1/2', '70x60mm', { quality, dpi: 50 }),
    );
    expect(sketch.reports).toEqual(finished.reports);
    const [a, b] = [sketch, finished].map(
      (made) => paintWet(made, 0, 0, made.grid.width, made.grid.height).load,
    );
    expect(correlation(a, b)).toBeGreaterThan(0.85);
    expect(a).not.toEqual(b);
  });
});

describe('density', () => {
  it('of 75 dpi is what 300 dpi looks like from further away', () => {
    const near = makeWet({ ...BUSY, second: '#b5482f' }, 'straight', '50.8x50.8mm', { dpi: 300 });
    const far = makeWet({ ...BUSY, second: '#b5482f' }, 'straight', '50.8x50.8mm', { dpi: 75 });
    const fine = boxFiltered(paintWet(near, 0, 0, 600, 600).load, 600, 4);
    const coarse = paintWet(far, 0, 0, 150, 150).load;
    expect(correlation(fine, coarse)).toBeGreaterThan(0.97);
    expect(Math.abs(meanOf(fine) - meanOf(coarse))).toBeLessThan(0.01);
  });
});

describe('the tooth of the paper', () => {
  it('is as strong at 75 dpi as seen from further away', () => {
    const bare = { floods: 0, blooms: 0, spatter: 0, charges: 0, clouds: 0, granulation: 100, tooth: 0.5 };
    const near = makeWet(bare, 'straight', '25.4x25.4mm', { dpi: 300 });
    const far = makeWet(bare, 'straight', '25.4x25.4mm', { dpi: 75 });
    const fine = boxFiltered(paintWet(near, 0, 0, 300, 300).load, 300, 4);
    const coarse = paintWet(far, 0, 0, 75, 75).load;
    const spread = (load: Float32Array) => Math.sqrt(meanOf(load.map((value) => (value - 1) ** 2)));
    expect(spread(coarse) / spread(fine)).toBeGreaterThan(0.8);
    expect(spread(coarse) / spread(fine)).toBeLessThan(1.2);
    expect(correlation(fine, coarse)).toBeGreaterThan(0.9);
  });
});

describe('moved edges', () => {
  it('stay within a few mm, and never fold over', () => {
    const made = makeWet({ ...BUSY, move: 6, tilt: 1 }, 'straight', '60x60mm', { dpi: 25.4 });
    const { moveX, moveY } = made.model;
    for (const field of [moveX, moveY]) for (const mm of field.values) expect(Math.abs(mm)).toBeLessThan(6);
    expect(Math.max(...moveY.values.map(Math.abs))).toBeGreaterThan(0.5);
    for (let k = 0; k < moveX.values.length - 1; k++) {
      if (k % moveX.width === moveX.width - 1) continue;
      expect(moveX.values[k + 1] - moveX.values[k]).toBeGreaterThan(-moveX.mmPerCellX);
    }
  });
});

describe('any values', () => {
  const given = fc.record(
    Object.fromEntries(
      Object.entries(PARAMETERS).map(([name, parameter]) => [
        name,
        parameter.kind === 'number'
          ? fc.oneof(
              fc.constantFrom(parameter.min, parameter.max),
              fc.double({ min: parameter.min, max: parameter.max, noNaN: true }),
            )
          : fc.constantFrom('#ffffff', '#000000', '#b5482f'),
      ]),
    ),
  );
  const sizes = fc.constantFrom('13x11mm', '5x7mm', '2x3mm', '30x4mm');
  const layouts = fc.constantFrom('straight', 'drop:1/2', 'brick:1/3');

  it('give a finite layer with no less than no paint', () => {
    fc.assert(
      fc.property(given, sizes, layouts, (values, size, layout) => {
        const made = makeWet(values, layout, size, { dpi: 100 });
        const { load, shift, tint } = paintWet(made, -5, -5, 60, 40);
        expect(load.every((value) => value >= 0 && value < 8)).toBe(true);
        expect(shift.every((mm) => Math.abs(mm) < 12)).toBe(true);
        expect(tint.every((value) => value >= 0 && value <= 1)).toBe(true);
      }),
      { numRuns: 40, seed: 1 },
    );
  });

  it('with nothing let in on a level sheet leave an even wash', () => {
    const none = {
      floods: 0,
      blooms: 0,
      spatter: 0,
      charges: 0,
      clouds: 0,
      granulation: 0,
      tilt: 0,
      brushwork: 0,
    };
    const { load } = paintWet(makeWet(none, 'straight', '20x20mm'), 0, 0, 60, 60);
    const spread = load.map((value) => (value - 1) ** 2);
    expect(Math.sqrt(meanOf(spread))).toBeLessThan(0.01);
  });

  it('touch the second colour in as strongly as asked', () => {
    const amountOf = (secondAmount: number) => {
      const made = makeWet({ ...BUSY, second: '#b5482f', secondAmount }, 'straight', '40x40mm', { dpi: 75 });
      return meanOf(made.model.second!.amount.values);
    };
    const usual = amountOf(100);
    expect(usual).toBeGreaterThan(0.01);
    expect(amountOf(40) / usual).toBeCloseTo(0.4, 2);
    expect(amountOf(200) / usual).toBeCloseTo(2, 2);
  });

  it('declare the planes that they need, and no more', () => {
    const planesOf = (values: object) => {
      const box = boxOf({ layout: parseLayout('straight'), width: 9, height: 9 });
      const { setting } = openSetting(wet, { box, seed: '1', parameters: { ...values } });
      return wet.planesFor!(setting.parameters as Values);
    };
    expect(planesOf({ move: 0, parting: 0 })).toEqual(['load']);
    expect(planesOf({ move: 0 })).toEqual(['load', 'parting']);
    expect(planesOf({ second: '#aa3322', parting: 0 })).toEqual(['load', 'shift', 'bleed', 'tint']);
    expect(planesOf({ second: '#aa3322', charges: 0, parting: 0 })).toEqual(['load', 'shift', 'bleed']);
  });
});
