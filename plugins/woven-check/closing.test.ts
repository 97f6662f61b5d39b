import { describe, expect, it } from 'vitest';
import { expectAnyCut, expectAstray, expectRunsOn, expectTranslates } from '../testing/habits.ts';
import { makeCheck, paintCheck } from '../testing/woven-check.ts';

const LINES = {
  warp: 'A18 B4 C2',
  weft: 'C9 A2',
  yarns: ['#f3ead6', '#8f2f2c', '#27406b'],
  tone: 12,
};
const CASES: [layout: string, size: string, parameters: object][] = [
  ['straight', '41x29mm', {}],
  ['straight', '3x2mm', { weave: [2, 2] }],
  ['drop:1/2', '40x30mm', { turned: true }],
  ['drop:1/3', '47x61mm', { weave: [2, 1] }],
  ['drop:2/5', '41x29mm', { weave: [3, 1, 1, 2], sett: [30, 12] }],
  ['brick:1/2', '40x30mm', {}],
  ['brick:3/4', '44x29mm', { weave: [2, 2], sett: [12, 30] }],
];

describe.each([300, 75, 12])('at %i dpi', (dpi) => {
  it.each(CASES)('%s %s %j: every lattice translate is the same to the bit', (layout, size, parameters) => {
    const made = makeCheck({ ...LINES, ...parameters }, layout, size, dpi);
    expectTranslates(made);
    const home = paintCheck(made, -37, -53, 61, 47);
    expect(home.shade.every((value) => value >= 0 && value < 4)).toBe(true);
    expect(home.tint.every((value) => value >= 0 && value <= 1 + 1e-6)).toBe(true);
  });
  it('cut in any way gives the same bits', () => {
    expectAnyCut(makeCheck(LINES, 'drop:1/2', '40x30mm', dpi), 60, 30);
  });
});

describe('the check itself', () => {
  it.each(['drop:1/2', 'brick:1/3', 'straight'])('catches a wrong lattice at %s', (layout) => {
    expectAstray(makeCheck({ yarns: ['#ffffff', '#000000'], tone: 12 }, layout, '40x30mm'), 0.99);
  });
});

describe('yarns run on across the edges of the box', () => {
  it.each(['drop:1/2', 'drop:2/5', 'brick:1/3'])('%s', (layout) => {
    expectRunsOn(makeCheck({ warp: 'A1', yarns: ['#88776a'], tone: 12, cover: 100 }, layout, '20x20mm'));
  });
});
