import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { choice, colour, numbers, numeric, palette, toggle, UNITS, type Unit } from './parameter.ts';
import { readWords, valueWords } from './value-words.ts';

const help = 'What it is.';
const number = (unit: Unit, min: number, max: number) => numeric({ unit, min, max, default: min, help });
const list = (unit: Unit, min: number, max: number) =>
  numbers({ unit, min, max, least: 1, most: 4, default: [min], help });

describe('a value in a sentence', () => {
  it.each([
    [number('per cm', 4, 40), 12, '12 per cm'],
    [number('per dm2', 0, 40), 1.5, '1.5 per 10 cm square'],
    [number('percent', 0, 100), 35, '35 %'],
    [number('ratio', 0, 1), 0.35, '35 %'],
    [number('ratio', 0, 1), 0.07, '7 %'],
    [number('ratio', 0, 2), 1.1, '110 %'],
    [number('ratio', 1, 8), 5.2, '5.2×'],
    [number('ratio', 0.3, 5), 1, '1×'],
    [number('count', 0, 8), 2, '2'],
    [number('deg', 0, 180), 12, '12°'],
    [number('deg', 0, 360), 0, '0° (right)'],
    [number('deg', 0, 360), 80, '80° (bottom)'],
    [number('deg', 0, 360), 225, '225° (upper left)'],
    [number('deg', 0, 360), 360, '360° (right)'],
    [list('per cm', 4, 60), [24], '24 per cm'],
    [list('per cm', 4, 60), [26, 24, 20], '26, 24 and 20 per cm'],
    [list('ratio', 0, 1), [0.2, 0.3], '20 % and 30 %'],
    [list('count', 1, 6), [2, 2], '2 and 2'],
    [
      palette({ least: 1, most: 3, default: ['#ffffff'], help }),
      ['#ffffff', '#123456'],
      '#ffffff and #123456',
    ],
    [colour({ default: '#ffffff', help }), '#c8542f', '#c8542f'],
    [choice({ options: ['on', 'off'], default: 'on', help }), 'off', 'off'],
    [toggle({ default: true, help }), false, 'off'],
  ])('case %#: %j', (parameter, value, words) => {
    expect(valueWords(parameter, value)).toBe(words);
  });
  it('is what the slot says of a switch or a choice', () => {
    const slot = { on: 'with knots', off: 'without' };
    expect(valueWords(toggle({ default: true, help }), false, slot)).toBe('without');
    const sponge = choice({ options: ['on', 'off'], default: 'on', help });
    expect(valueWords(sponge, 'off', { words: { on: 'laid on', off: 'taken off' } })).toBe('taken off');
  });
  it('is read back as it was, in every unit', () => {
    const ranges = fc.constantFrom<[number, number]>(
      [0, 1],
      [-1, 1],
      [0, 2.5],
      [1, 8],
      [0, 360],
      [-180, 180],
    );
    const given = fc.tuple(
      fc.constantFrom(...UNITS),
      ranges,
      fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 4 }),
    );
    fc.assert(
      fc.property(given, ([unit, [min, max], shares]) => {
        const values = shares.map((share) => Number((min + share * (max - min)).toFixed(4)));
        const one = number(unit, min, max);
        expect(readWords(one, valueWords(one, values[0]))).toBe(values[0] + 0);
        const many = list(unit, min, max);
        expect(readWords(many, valueWords(many, values))).toEqual(values.map((value) => value + 0));
      }),
    );
  });
  it.each([
    [number('ratio', 0, 1), '40', 0.4],
    [number('ratio', 0, 1), '40%', 0.4],
    [number('ratio', 0, 1), '0.34 %', 0.0034],
    [number('ratio', -1, 1), '-40 %', -0.4],
    [number('ratio', 0, 1), 'much', Number.NaN],
    [number('ratio', 1, 8), '2', 2],
    [number('per dm2', 0, 9), '3 per dm2', 3],
    [number('deg', 0, 360), '90', 90],
    [number('deg', 0, 360), '90 deg', 90],
    [number('mm', 0, 9), '3 and 4', Number.NaN],
    [number('mm', 0, 9), '', Number.NaN],
    [list('mm', 0, 9), '3, 4', [3, 4]],
    [colour({ default: '#ffffff', help }), ' #c8542f ', '#c8542f'],
  ])('is read as it is typed: case %#, "%s"', (parameter, words, value) => {
    if (Array.isArray(value)) expect(readWords(parameter, words)).toEqual(value);
    else expect(readWords(parameter, words)).toBe(value);
  });
});
