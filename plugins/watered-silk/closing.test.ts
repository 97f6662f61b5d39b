import { describe, it } from 'vitest';
import { expectAnyCut, expectAstray, expectRunsOn, expectTranslates } from '../testing/habits.ts';
import { makeWatered } from '../testing/watered-silk.ts';

const CASES: [layout: string, size: string, parameters: Record<string, unknown>][] = [
  ['straight', '41x29mm', {}],
  ['straight', '3x2mm', { lines: 120 }],
  ['drop:1/2', '40x30mm', { lines: 80 }],
  ['drop:1/3', '47x61mm', { ribs: 12, bands: 6 }],
  ['drop:2/5', '41x29mm', { figureWidth: 9, figureLength: 300 }],
  ['brick:1/2', '40x30mm', {}],
  ['brick:1/3', '3x2mm', {}],
  ['brick:2/5', '44x29mm', { lines: 120, feather: 2 }],
];

describe.each([300, 75, 20])('at %i dpi', (dpi) => {
  it.each(CASES)('%s %s %j: every lattice translate is the same to the bit', (layout, size, parameters) => {
    expectTranslates(makeWatered(parameters, layout, size, dpi));
  });
  it('bands cut in any way give the same bits', () => {
    expectAnyCut(makeWatered({}, 'drop:1/2', '40x30mm', dpi), 60, 30);
  });
});

describe('the check itself', () => {
  it.each(['drop:1/2', 'brick:1/3', 'straight'])('catches a wrong lattice at %s', (layout) => {
    expectAstray(makeWatered({}, layout, '40x30mm'), 0.97);
  });
});

describe('ribs and bands run on across the edges of the box', () => {
  it.each(['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3'])('%s', (layout) => {
    expectRunsOn(makeWatered({ lines: 100, bands: 4 }, layout, '20x20mm'));
  });
});
