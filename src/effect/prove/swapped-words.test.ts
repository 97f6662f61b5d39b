import { expect, it } from 'vitest';
import { swappedWords } from './swapped-words.ts';

it.each([
  [
    ['plain', 'twill'],
    ['a twill', 'a plain weave'],
    [0, 1],
  ],
  [
    ['on', 'off', 'printed'],
    ['laid on', 'printed', 'taken off'],
    [1, 2],
  ],
  [['plain', 'twill'], ['a plain weave', 'a twill'], undefined],
  // Named by chance, by one of them alone.
  [['in', 'out'], ['filled', 'left in peace'], undefined],
  // Each says its own word, and the other's besides.
  [['leaves', 'veneer'], ['veneer in leaves', 'a veneer without leaves'], undefined],
  // A part of a word is none.
  [['on', 'off'], ['offered', 'only'], undefined],
  [['plain', 'twill'], [], undefined],
])('of %j, said as %j, finds %j in the wrong order', (options, phrases, found) => {
  expect(swappedWords(phrases, options)).toEqual(found);
});

it('finds none in the phrases of a switch, which has no options', () => {
  expect(swappedWords(['your own', 'those of the wood'], [])).toBe(undefined);
});
