import { describe, it } from 'vitest';
import { expectAnyCut, expectAstray, expectRunsOn, expectTranslates } from '../testing/habits.ts';
import { makePaper } from '../testing/paper-tooth.ts';

const CASES: [layout: string, size: string, parameters: Record<string, unknown>][] = [
  ['straight', '41x29mm', { fibres: 60 }],
  ['straight', '3x2mm', { laid: 9 }],
  ['drop:1/2', '40x30mm', { laid: 9 }],
  ['drop:1/3', '47x61mm', { tooth: 5, fibres: 60 }],
  ['drop:2/5', '41x29mm', { felt: 2, laid: 12, chain: 12 }],
  ['brick:1/2', '40x30mm', { laid: 7 }],
  ['brick:1/3', '3x2mm', { fibres: 60 }],
  ['brick:2/5', '44x29mm', { pressed: 1, fibres: 60 }],
];

describe.each([300, 75, 20])('at %i dpi', (dpi) => {
  it.each(CASES)('%s %s %j: every lattice translate is the same to the bit', (layout, size, parameters) => {
    expectTranslates(makePaper(parameters, layout, size, dpi));
  });
  it('bands cut in any way give the same bits', () => {
    expectAnyCut(makePaper({ fibres: 60, laid: 9 }, 'drop:1/2', '40x30mm', dpi), 60, 30);
  });
});

describe('the check itself', () => {
  it.each(['drop:1/2', 'brick:1/3', 'straight'])('catches a wrong lattice at %s', (layout) => {
    expectAstray(makePaper({}, layout, '40x30mm'), 0.97);
  });
});

describe('tooth, lines and fibres run on across the edges of the box', () => {
  it.each(['straight', 'drop:1/2', 'drop:2/5', 'brick:1/3'])('%s', (layout) => {
    expectRunsOn(makePaper({ fibres: 60, felt: 2, laid: 6 }, layout, '20x20mm'));
  });
});
