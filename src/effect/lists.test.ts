import { describe, expect, expectTypeOf, it } from 'vitest';
import { Fault } from '../fault.ts';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import { checkEffect } from './contract.ts';
import { defineEffect } from './effect.ts';
import { numbers, palette, text } from './parameter.ts';
import { openSetting } from './setting.ts';
import { fitsPattern } from './text-pattern.ts';
import { parseValue, resolveValues } from './values.ts';

const parameters = {
  stripes: numbers({
    ...{ unit: 'mm', min: 1, max: 40, least: 2, most: 4, default: [12, 3] },
    help: 'Widths of the stripes.',
  }),
  ends: numbers({
    ...{ unit: 'count', min: 1, max: 9, whole: true, least: 1, most: 2, default: [2] },
    help: 'Ends.',
  }),
  yarns: palette({ least: 2, most: 3, default: ['#ffffff', '#1f3a5f'], help: 'Colours of the yarns.' }),
  order: text({
    ...{ pattern: '[A-L][0-9]+( [A-L][0-9]+)*', longest: 20, default: 'A24 B4' },
    ...{ say: 'a thread order such as A24 B4', help: 'The order of the threads.' },
  }),
};

const sample = defineEffect({
  apiVersion: 2,
  name: 'sample',
  version: '1.0.0',
  summary: 'A sample.',
  parameters,
  planes: ['shade'],
  prepare: ({ parameters: given }) => {
    expectTypeOf(given.stripes).toEqualTypeOf<readonly number[]>();
    expectTypeOf(given.yarns).toEqualTypeOf<readonly string[]>();
    expectTypeOf(given.order).toEqualTypeOf<string>();
    return {};
  },
  paint() {},
});

function messageOf(action: () => unknown): string {
  try {
    action();
  } catch (error) {
    if (Fault.is(error)) return error.message;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('lists and texts as values', () => {
  it('keep their order, and nobody can change them', () => {
    const mine = [3, 40, 1];
    const values = resolveValues('sample', parameters, { stripes: mine });
    expect(values.stripes).toEqual([3, 40, 1]);
    expect(values.yarns).toEqual(['#ffffff', '#1f3a5f']);
    mine[0] = 7;
    expect(values.stripes[0]).toBe(3);
    for (const list of [values.stripes, values.ends, values.yarns]) expect(Object.isFrozen(list)).toBe(true);
    expect(Object.isFrozen(parameters.yarns.default)).toBe(false);
  });
  it('reach an effect frozen, and can be sent to a thread', () => {
    const box = boxOf({ layout: parseLayout('straight'), width: 30, height: 20 });
    const { setting } = openSetting(sample, { box, seed: '1', parameters: { stripes: [5, 6] } });
    const { stripes, yarns } = setting.parameters as { stripes: number[]; yarns: string[] };
    expect(() => stripes.sort()).toThrow(TypeError);
    expect(() => yarns.push('#000000')).toThrow(TypeError);
    expect(structuredClone(setting.parameters)).toEqual({ ...setting.parameters });
  });
  it('are read from text', () => {
    const read = (name: string, words: string) => parseValue('sample', parameters, name, words);
    expect(read('stripes', '12, 3.5 mm,4mm')).toEqual([12, 3.5, 4]);
    expect(read('yarns', '#AABBCC,#000000')).toEqual(['#AABBCC', '#000000']);
    expect(read('order', 'A2 B3')).toBe('A2 B3');
  });

  it.each([
    [
      'stripes',
      '12,400',
      'a number from 1 to 40 mm for number 2 of stripes of sample but received 400. The nearest is 40.',
    ],
    ['stripes', '12 deg,4', 'number 1 of stripes of sample but received "12 deg"'],
    ['stripes', '12;4', 'Write "12,4": commas between, and nothing else.'],
    ['stripes', '[12, 4]', 'Write "12,4"'],
    ['stripes', '12', '2 to 4 numbers for stripes of sample but received 1. The default is 12,3;'],
    ['stripes', '1,,2', 'number 2 of stripes of sample but received "".'],
    ['stripes', '', 'a list of 2 to 4 numbers from 1 to 40 mm for stripes of sample but received ""'],
    [
      'ends',
      '2.6',
      'a whole number from 1 to 9 for number 1 of ends of sample but received 2.6. The nearest is 3.',
    ],
    ['yarns', '#ffffff,red', 'a colour written #rrggbb for colour 2 of yarns of sample but received "red"'],
    ['yarns', 'a02,#ffffff', 'Write "#aa0022,#ffffff"'],
    [
      'order',
      ' a24  b4 ',
      'a thread order such as A24 B4, in 20 characters at most for order of sample but received " a24  b4 ". Write "A24 B4".',
    ],
    ['order', 'A24 B4, C', '"A24 B4" would do; what follows it does not.'],
    ['order', 'A1 '.repeat(9), 'It has 27 characters.'],
  ])('as text are refused: %s=%s', (name, words, told) => {
    expect(messageOf(() => parseValue('sample', parameters, name, words))).toContain(told);
  });
  it.each<[Record<string, unknown>, string]>([
    [{ stripes: 12 }, 'a list of 2 to 4 numbers from 1 to 40 mm for stripes of sample but received 12.'],
    [{ stripes: '12, 4' }, 'received "12, 4". Write [12, 4].'],
    [{ stripes: [12, '4'] }, 'number 2 of stripes of sample but received "4". Write 4 there.'],
    [{ stripes: [1, Number.NaN] }, 'number 2 of stripes of sample but received NaN.'],
    [{ stripes: new Array(3) }, 'number 1 of stripes of sample but received undefined'],
    [{ stripes: { length: 2 } }, 'received an object'],
    [
      { yarns: ['#ffffff', '0a0b0c'] },
      'colour 2 of yarns of sample but received "0a0b0c". Write "#0a0b0c" there.',
    ],
    [{ yarns: ['#ffffff'] }, '2 to 3 colours for yarns of sample but received 1.'],
    [{ order: ['A1'] }, 'received ["A1"]'],
    [{ order: '' }, 'received ""'],
  ])('in a file are refused: %j', (given, told) => {
    expect(messageOf(() => resolveValues('sample', parameters, given))).toContain(told);
  });
});

describe('the contract of lists and texts', () => {
  it('is that of version 2', () => {
    expect(checkEffect(sample, 'here')).toBe(sample);
    expect(messageOf(() => checkEffect({ ...sample, apiVersion: 1 }, 'here'))).toBe(
      'Expected apiVersion 2 for the kind numbers for here, parameter stripes but received 1. Write apiVersion: 2 into the effect.',
    );
  });
  it.each<[object, string]>([
    [{ ...parameters.stripes, unit: 'furlong' }, 'a unit, one of'],
    [{ ...parameters.stripes, min: 50 }, 'a min below its max'],
    [{ ...parameters.stripes, least: 0 }, 'least from 1'],
    [{ ...parameters.stripes, least: 5 }, 'received 5..4'],
    [{ ...parameters.stripes, most: 1000 }, 'most from least to 256'],
    [{ ...parameters.stripes, default: [1] }, 'a default that is a list of 2 to 4 numbers'],
    [{ ...parameters.yarns, most: undefined }, 'received 2..undefined'],
    [{ ...parameters.yarns, default: '#ffffff' }, 'a default that is a list of 2 to 3 colours'],
    [{ ...parameters.order, say: undefined }, '"say", what it takes in words'],
    [{ ...parameters.order, longest: 100_000 }, 'longest, a whole number from 1 to 1000'],
    [{ ...parameters.order, pattern: /a/ }, 'pattern, the source of a regular expression in quotes'],
    [{ ...parameters.order, pattern: '(?=A)A' }, 'that is matched without trying again'],
    [{ ...parameters.order, pattern: '(A)\\1' }, 'back references'],
    [{ ...parameters.order, pattern: 'A)|(B' }, 'received "A)|(B"'],
    [{ ...parameters.order, pattern: '(A{100}){100}' }, 'counts above 1,000'],
    [{ ...parameters.order, pattern: 'A'.repeat(501) }, 'one of 501 characters'],
    [{ ...parameters.order, default: 'nothing' }, 'a default that is a thread order'],
    [{ ...parameters.order, kind: 'words' }, 'switch, numbers, colours, text or picture'],
  ])('refuses case %#', (parameter, words) => {
    expect(messageOf(() => checkEffect({ ...sample, parameters: { a: parameter } }, 'here'))).toContain(
      words,
    );
  });
});

// Each of these takes an engine that tries and goes back longer than the world is old.
describe('a text of the greatest length against patterns made to hang', () => {
  it.each([
    ['(a+)+b', 'a'],
    ['(a|a)*b', 'a'],
    ['(a|aa)+b', 'a'],
    ['(.*)*(.*)*(.*)*x', 'a'],
    ['(x+x+)+y', 'x'],
    ['([a-z]+)*[0-9]', 'm'],
    ['((a?){30}){30}b', 'a'],
    ['(a|b)*a(a|b){30}c', 'ab'],
  ])('%s is answered', (pattern, letters) => {
    expect(fitsPattern(letters.repeat(1000 / letters.length), pattern, 1000)).toBe(false);
  });
  it('fits as a whole or not at all', () => {
    expect(fitsPattern('ab', 'a', 9)).toBe(false);
    expect(fitsPattern('b', 'a|b', 9)).toBe(true);
    expect(fitsPattern('ab\n', 'ab', 9)).toBe(false);
  });
  it('counts a character once', () => {
    expect(fitsPattern('🧵🧵', '.*', 2)).toBe(true);
  });
});
