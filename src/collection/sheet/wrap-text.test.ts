import { describe, expect, it } from 'vitest';
import { wrapText } from './wrap-text.ts';

const upTo = (letters: number) => (line: string) => line.length <= letters;

describe('text in lines', () => {
  it('breaks at spaces', () => {
    expect(wrapText('warp and weft cross', upTo(9), 5)).toEqual(['warp and', 'weft', 'cross']);
  });
  it('breaks a word that is longer than a line', () => {
    expect(wrapText('unforgettable', upTo(8), 5)).toEqual(['unforget', 'table']);
  });
  it('breaks such a word after a hyphen or the like, where it has one', () => {
    expect(wrapText('tile-with-a-long-name', upTo(8), 5)).toEqual(['tile-', 'with-a-', 'long-', 'name']);
    expect(wrapText('tile-unforgettable', upTo(8))).toEqual(['tile-', 'unforget', 'table']);
  });
  it('ends in an ellipsis where there is more than there is room for, and never otherwise', () => {
    expect(wrapText('one two three four', upTo(5), 2)).toEqual(['one', 'two…']);
    expect(wrapText('one two', upTo(5), 2)).toEqual(['one', 'two']);
    expect(wrapText('', upTo(5), 2)).toEqual([]);
  });
});
