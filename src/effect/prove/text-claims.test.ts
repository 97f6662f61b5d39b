import { expect, it } from 'vitest';
import { text } from '../parameter.ts';
import { fitsPattern } from '../text-pattern.ts';
import { characterClaims } from './text-claims.ts';

const order = text({
  ...{ pattern: '[AB][1-9][0-9]?( [AB][1-9][0-9]?){0,7}', longest: 31, default: 'A8 B4' },
  ...{ say: 'widths such as A8 B12', help: 'Widths.' },
});

it('claims something of each place in numbers and words that the pattern has, and of no other', () => {
  const claims = characterClaims('order', order, 8);
  expect(claims.map(({ what }) => what)).toEqual([
    'the first digit of a number in order',
    'the second digit of a number in order',
    'the first letter of a word in order',
  ]);
});

it('exchanges one character at a time, in texts that fit', () => {
  for (const { values } of characterClaims('order', order, 8)) {
    const [first, ...others] = values.map(String);
    expect(others.length).toBeGreaterThan(1);
    for (const other of others) {
      expect(fitsPattern(other, order.pattern, order.longest), other).toBe(true);
      expect([...other].filter((character, at) => character !== first[at])).toHaveLength(1);
    }
  }
});

it('claims nothing of a character that nothing can stand for', () => {
  const only = text({ pattern: 'a|bb', longest: 2, default: 'a', say: 'a or bb', help: 'One of two.' });
  expect(characterClaims('only', only, 8)).toEqual([]);
});
