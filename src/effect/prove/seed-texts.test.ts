import { describe, expect, it } from 'vitest';
import { likenessOf, listedSeed, seedTexts, spokenSeed } from './seed-texts.ts';
import { describeTrial, HOME } from './trial.ts';

describe('seeds in words', () => {
  it('shortens a long one and says its length', () => {
    expect(spokenSeed(`${'x'.repeat(3000)}1`)).toBe('"xxx...xx1" of 3001 letters');
    expect(describeTrial({ ...HOME, seed: 'x'.repeat(3001) })).toContain(
      '; seed "xxx...xxx" of 3001 letters; ',
    );
  });
  it('names by number what cannot be seen', () => {
    expect(spokenSeed('\u00e9\u{1f9f5}\u0000%')).toBe('"\u00e9\u{1f9f5}\\u{0}%"');
  });
  it('leaves plain words as they are', () => {
    expect(listedSeed('prove')).toBe('prove');
    expect(listedSeed('a third')).toBe('"a third"');
  });
});

describe('seeds to try', () => {
  it('are all different, however many', () => {
    expect(new Set(seedTexts(256)).size).toBe(256);
  });
});

it.each([
  [['rose', 'Rose'], /case alone/],
  [['\u{1f9f5}', '\u{1f9f6}'], /16 of their bits/],
  [['\u{1f9f5}', '\uf9f5'], /16 of their bits/],
  [['1', '01'], /as numbers are one/],
  [['9007199254740992', '9007199254740993'], /as numbers are one/],
  [['rose', 'rosa', 'rose madder 1'], /first 3 letters/],
  [['rose', 'nose'], /last 3 letters/],
  [['rose', 'sore'], /another order/],
  [['1', '4294967297'], /32 bits/],
  [['rose', 'rosa', 'nose', 'sore', '1e39'], /the same length/],
] as const)('says what %j have in common', (seeds, words) => {
  expect(likenessOf(seeds)).toMatch(words);
});

it('finds nothing in common where chance alone has made two agree', () => {
  expect(likenessOf(['17', 'ochre'])).toBeUndefined();
});
