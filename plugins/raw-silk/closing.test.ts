import { describe, it } from 'vitest';
import { expectAnyCut, expectAstray, expectRunsOn, expectTranslates } from '../testing/habits.ts';
import { makeSilk } from '../testing/raw-silk.ts';

const CASES: [layout: string, size: string, parameters: Record<string, unknown>][] = [
  ['straight', '41x29mm', {}],
  ['straight', '3x2mm', { slubs: 60 }],
  ['drop:1/2', '40x30mm', { shot: 80 }],
  ['drop:1/3', '47x61mm', { picks: 12, slubs: 40 }],
  ['drop:2/5', '41x29mm', { ends: 31 }],
  ['brick:1/2', '40x30mm', {}],
  ['brick:1/3', '3x2mm', {}],
  ['brick:2/5', '44x29mm', { unevenness: 50 }],
];

describe.each([300, 75, 20])('at %i dpi', (dpi) => {
  it.each(CASES)('%s %s %j: every lattice translate is the same to the bit', (layout, size, parameters) => {
    expectTranslates(makeSilk(parameters, layout, size, dpi));
  });
  it('bands cut in any way give the same bits', () => {
    expectAnyCut(makeSilk({}, 'drop:1/2', '40x30mm', dpi), 60, 30);
  });
});

describe('the check itself', () => {
  it.each(['drop:1/2', 'brick:1/3', 'straight'])('catches a wrong lattice at %s', (layout) => {
    expectAstray(makeSilk({}, layout, '40x30mm'), 0.97);
  });
});

describe('picks run on across the edges of the box', () => {
  it.each(['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3'])('%s', (layout) => {
    expectRunsOn(makeSilk({ slubs: 60, unevenness: 40 }, layout, '20x20mm'));
  });
});
