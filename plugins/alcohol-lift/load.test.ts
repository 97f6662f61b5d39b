import fc from 'fast-check';
import { fitGrid, parseLayout } from 'tenter';
import { openSetting } from 'tenter/render';
import { describe, expect, it } from 'vitest';
import { makeLift, PLAIN_DROP, paintLift, wholeLoad } from '../testing/alcohol-lift.ts';
import { boxFiltered, correlation, meanOf } from '../testing/measure.ts';
import lift from './index.ts';
import { stainOn } from './lift.ts';
import { prepareOnCells } from './prepare.ts';

describe('the load', () => {
  const made = makeLift({ drops: 30 }, 'drop:1/2', '60x50mm');

  // The mean is divided by itself, so that it is 1 proves nothing: that little had to be divided by does.
  it.each([
    ['few drops', { drops: 30 }],
    ['the defaults', {}],
    ['an even wash on smooth paper', { drops: 30, wash: 0, tooth: 0 }],
  ])('is kept by the maps themselves but for a sixth, with %s', (_, parameters) => {
    const { reports } = makeLift(parameters, 'drop:1/2', '60x50mm', { quality: 'sketch' });
    const levelled = reports.find(({ name }) => name === 'paint levelled by');
    expect(Math.abs(Number(levelled?.value))).toBeLessThan(17);
  });
  it.each([300, 150, 75, 25])('has mean 1 within a hundredth as painted at %i dpi', (dpi) => {
    const grid = fitGrid({ layout: parseLayout('drop:1/2'), width: 60, height: 50 }, dpi / 25.4);
    expect(Math.abs(meanOf(wholeLoad({ model: made.model, grid })) - 1)).toBeLessThan(0.01);
  });
  it('is pale in openings, with paint left, and never heaps into crumbs', () => {
    const load = wholeLoad(made).sort();
    expect(load[Math.floor(0.02 * load.length)]).toBeLessThan(0.5);
    expect(load[Math.floor(0.02 * load.length)]).toBeGreaterThan(0.02);
    expect(load[Math.floor(0.999 * load.length)]).toBeLessThan(3.2);
  });
  it('at 75 dpi is what 300 dpi looks like from further away', () => {
    const near = makeLift({ drops: 30 }, 'straight', '50.8x50.8mm');
    const far = makeLift({ drops: 30 }, 'straight', '50.8x50.8mm', { dpi: 75 });
    const shrunk = boxFiltered(wholeLoad(near), near.grid.width, near.grid.width / far.grid.width);
    expect(correlation(shrunk, wholeLoad(far))).toBeGreaterThan(0.97);
  });
});

describe('a sketch', () => {
  it('has the same drops and nearly the same paint as the finished picture', () => {
    const finished = makeLift({ drops: 30 }, 'drop:1/2', '50x50mm');
    const sketch = makeLift({ drops: 30 }, 'drop:1/2', '50x50mm', { quality: 'sketch' });
    // How much paint a drop found is read from the wash, which a sketch lays on coarser cells.
    const stained = (made: typeof sketch) => made.model.rims.stain;
    expect({ ...sketch.model.rims, stain: 0 }).toEqual({ ...finished.model.rims, stain: 0 });
    expect(correlation(stained(sketch), stained(finished))).toBeGreaterThan(0.98);
    expect(correlation(wholeLoad(sketch), wholeLoad(finished))).toBeGreaterThan(0.9);
    expect(sketch.model.patches.parts.length).toBeLessThan(finished.model.patches.parts.length / 3);
  });
});

describe('cells half as large', () => {
  it('give the same paint', () => {
    const at = (coarseness: number) => {
      const grid = fitGrid({ layout: parseLayout('drop:1/2'), width: 50, height: 50 }, 6);
      const { setting } = openSetting(lift, { box: grid.box, seed: 'test', parameters: { drops: 30 } });
      return wholeLoad({ model: prepareOnCells(setting as never, coarseness), grid });
    };
    expect(correlation(at(1), at(0.5))).toBeGreaterThan(0.97);
  });
});

describe('what is asked', () => {
  const bare = (parameters: object) => {
    const load = wholeLoad(makeLift({ drops: 20, ...parameters }, 'straight', '60x60mm', { dpi: 75 }));
    return load.filter((value) => value < 0.75).length / load.length;
  };
  it('changes what comes: wetter opens wider, more drops open more, none leave the wash whole', () => {
    expect(bare({ wetness: 80 })).toBeGreaterThan(1.2 * bare({ wetness: 10 }));
    expect(bare({ drops: 40 })).toBeGreaterThan(1.2 * bare({ drops: 8 }));
    expect(bare({ drops: 0, spatter: 0, tooth: 0, wash: 0, brushwork: 0 })).toBe(0);
  });
  it('is needed or not: planes follow the values', () => {
    const values = { carry: 0, inkAmount: 0 } as never;
    expect(lift.planesFor?.(values)).toEqual(['load']);
    expect(lift.planesFor?.({ carry: 50, inkAmount: 10 } as never)).toEqual([
      'load',
      'shift',
      'bleed',
      'tint',
    ]);
  });
  it('carries paint outward: beside an opening it came from nearer its middle', () => {
    const { model, grid } = makeLift({ drops: 20, carry: 100, spatter: 0 }, 'straight', '60x60mm', {
      dpi: 100,
    });
    const { shift, bleed } = paintLift({ model, grid }, 0, 0, grid.width, grid.height);
    expect(bleed.every((value) => value >= 0 && value < 6)).toBe(true);
    // Wet passages and dry ones.
    expect(bleed.filter((value) => value > 0.3).length / bleed.length).toBeGreaterThan(0.1);
    expect(bleed.filter((value) => value === 0).length / bleed.length).toBeGreaterThan(0.1);
    const farthest = shift.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    expect(farthest).toBeGreaterThan(0.5);
    expect(farthest).toBeLessThan(15);
    const none = makeLift({ drops: 20, carry: 0 }, 'straight', '60x60mm', { dpi: 75 });
    expect(none.model.moved).toBeUndefined();
  });
});

describe('a charge of spirit', () => {
  it('sweeps thin paint nearly off and leaves deep paint a shade paler, within what a stain may be', () => {
    const { model } = makeLift({ drops: 1 }, 'drop:1/3', '40x30mm');
    const wash = model.paper.wash;
    const of = (deep: number) =>
      stainOn({ ...PLAIN_DROP, stain: 0.2 }, { ...wash, values: wash.values.map(() => deep) });
    expect(of(1)).toBeCloseTo(0.2, 6);
    expect(of(0.4)).toBeLessThan(0.12);
    expect(of(2)).toBeGreaterThan(0.35);
    expect(of(50)).toBeLessThan(0.45);
  });
});

describe('any values', () => {
  const arbitrary = Object.fromEntries(
    Object.entries(lift.parameters).map(([name, parameter]) => [
      name,
      parameter.kind === 'number'
        ? fc.oneof(
            fc.constantFrom(parameter.min, parameter.max),
            fc.double({ min: parameter.min, max: parameter.max, noNaN: true }),
          )
        : fc.constant(parameter.default),
    ]),
  );
  it('give a picture of finite numbers, no paint below 0', () => {
    const check = (values: object, layout: string) => {
      const made = makeLift(values as never, layout, '11x8mm', { dpi: 120 });
      const { load, shift, bleed, tint } = paintLift(made, -9, -5, 50, 40);
      expect(bleed.every((value) => value >= 0 && value < 8)).toBe(true);
      expect(load.every((value) => value >= 0 && value < 20)).toBe(true);
      expect(shift.every((value) => Math.abs(value) < 30)).toBe(true);
      expect(tint.every((value) => value >= 0 && value <= 1)).toBe(true);
    };
    fc.assert(
      fc.property(fc.record(arbitrary), fc.constantFrom('straight', 'drop:1/2', 'brick:1/3'), check),
      { numRuns: 20, seed: 7 },
    );
  });
  it('more drops than a tile can hold: fewer fall, and the picture still holds paint', () => {
    const made = makeLift(
      { drops: 60, size: 30, wetness: 100, variety: 0, spatter: 400 },
      'drop:1/2',
      '60x60mm',
    );
    const large = made.model.rims.radius.filter((radius) => radius > 3).length;
    expect(large).toBeLessThan(21.6);
    expect(Math.abs(meanOf(wholeLoad(made)) - 1)).toBeLessThan(0.01);
  });
});
