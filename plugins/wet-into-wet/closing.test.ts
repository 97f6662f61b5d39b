import { describe, expect, it } from 'vitest';
import { expectAstray, expectSameParts, expectTranslates } from '../testing/habits.ts';
import type { Made } from '../testing/make.ts';
import { makeWet, paintWet } from '../testing/wet-into-wet.ts';

const FULL = { second: '#b5482f', charges: 12, blooms: 20, spatter: 60, floods: 1, tilt: 0.6 };
const CASES: [layout: string, size: string][] = [
  ['straight', '41x29mm'],
  ['drop:1/2', '40x30mm'],
  ['drop:1/3', '37x51mm'],
  ['drop:2/5', '41x29mm'],
  ['brick:1/2', '40x30mm'],
  ['drop:1/2', '5x7mm'],
  ['straight', '2x3mm'],
];
const bytes = (values: Float32Array) => Buffer.from(values.buffer, values.byteOffset, values.byteLength);

const paintAt = (made: Made) => paintWet(made, -37, -53, 61, 47);

describe('every lattice translate is the same', () => {
  it.each(CASES)('%s %s', (layout, size) => {
    const made = makeWet(FULL, layout, size);
    expectTranslates(made);
    const home = paintAt(made);
    expect(home.load.every((value) => value >= 0 && value < 4)).toBe(true);
  });

  it.each(['drop:1/2', 'straight', 'brick:1/2'])('and a wrong lattice is not, at %s', (layout) => {
    const made = makeWet(FULL, layout, '40x30mm');
    expectAstray(made, 0.98);
  });
});

describe('the same bytes', () => {
  it('from the same setting, and others from another seed', () => {
    const [one, two] = [makeWet(FULL, 'drop:1/2', '30x30mm'), makeWet(FULL, 'drop:1/2', '30x30mm')];
    const other = makeWet(FULL, 'drop:1/2', '30x30mm', { seed: 'other' });
    const load = (made: Made) => bytes(paintAt(made).load);
    expect(load(one).equals(load(two))).toBe(true);
    expect(load(one).equals(load(other))).toBe(false);
  });

  it('in bands cut anyhow', () => {
    const made = makeWet(FULL, 'brick:1/2', '30x20mm');
    expectSameParts(made, 400, 30, [
      [0, 0, 400, 1],
      [0, 29, 400, 1],
      [17, 5, 1, 25],
      [331, 11, 29, 8],
    ]);
  });
});
