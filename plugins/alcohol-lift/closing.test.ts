import { describe, expect, it } from 'vitest';
import { makeLift, paintLift } from '../testing/alcohol-lift.ts';
import { expectAstray, expectSameParts, expectTranslates } from '../testing/habits.ts';

const INKED = { inkAmount: 60, drops: 40, spatter: 300 };
const CASES: [layout: string, size: string, parameters: object][] = [
  ['straight', '41x29mm', {}],
  ['drop:1/2', '40x30mm', { run: 30 }],
  ['drop:1/2', '5x7mm', {}],
  ['drop:1/3', '37x45mm', {}],
  ['drop:2/5', '41x29mm', { wetness: 100 }],
  ['brick:1/2', '40x30mm', {}],
  ['brick:1/2', '5x7mm', {}],
  ['brick:2/5', '44x29mm', { seconds: 100 }],
];

describe.each([300, 75])('at %i dpi', (dpi) => {
  it.each(CASES)('%s %s %j: every lattice translate is the same to the bit', (layout, size, parameters) => {
    const made = makeLift({ ...INKED, ...parameters }, layout, size, { dpi });
    expectTranslates(made);
    const home = paintLift(made, -37, -53, 61, 47);
    expect(home.load.every((value) => value >= 0 && value < 8)).toBe(true);
    expect(new Set(home.load).size).toBeGreaterThan(100);
  });
});

describe('the check itself', () => {
  it.each(['drop:1/2', 'brick:1/3', 'straight'])('catches a wrong lattice at %s', (layout) => {
    expectAstray(makeLift(INKED, layout, '40x30mm'), 0.99);
  });
});

describe('across the edges of the box', () => {
  // Copies are the same because pixels are brought home first; that the field meets itself there is another matter.
  it.each(['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3'])('%s: no jump beyond those inside', (layout) => {
    const made = makeLift({ ...INKED, tooth: 0 }, layout, '30x30mm', { dpi: 150 });
    const { width, height } = made.grid;
    const step = (x: number, y: number, down: boolean) => {
      const [w, h] = down ? [width, 2] : [2, height];
      const { load } = paintLift(made, x, y, w, h, ['load']);
      const half = load.length / 2;
      let sum = 0;
      for (let k = 0; k < half; k++)
        sum += Math.abs(down ? load[k + half] - load[k] : load[2 * k + 1] - load[2 * k]);
      return sum / half;
    };
    for (const down of [false, true]) {
      const inside = Array.from({ length: 20 }, (_, k) =>
        step(down ? 0 : 3 + 8 * k, down ? 3 + 8 * k : 0, down),
      ).sort((a, b) => a - b);
      const seam = step(down ? 0 : width - 1, down ? height - 1 : 0, down);
      expect(seam).toBeLessThan(1.3 * inside[19]);
      expect(seam).toBeGreaterThan(0.5 * inside[0]);
    }
  });
});

describe('bands', () => {
  it.each([300, 75])('cut in any way give the same bits at %i dpi', (dpi) => {
    const made = makeLift(INKED, 'drop:1/2', '40x30mm', { dpi });
    expectSameParts(made, 560, 30, [
      [0, 0, 560, 1],
      [0, 29, 560, 1],
      [17, 5, 1, 25],
      [31, 11, 529, 8],
      [255, 3, 290, 9],
    ]);
  });
  it('come out the same when all is prepared again', () => {
    const [first, again] = [0, 1].map(() => makeLift(INKED, 'brick:1/2', '30x30mm'));
    for (const name of ['parts', 'rims', 'left', 'cell'] as const)
      expect(
        Buffer.compare(
          Buffer.from(first.model.patches[name].buffer),
          Buffer.from(again.model.patches[name].buffer),
        ),
      ).toBe(0);
    expect(again.model.level).toBe(first.model.level);
    expect(again.model.moved?.x.values).toEqual(first.model.moved?.x.values);
  });
});
