import { expect, it } from 'vitest';
import { text } from '../parameter.ts';
import { fitsPattern } from '../text-pattern.ts';
import { extremeTexts } from './random-text.ts';

const sett = text({
  pattern: '[A-C][0-9]{1,2}( [A-C][0-9]{1,2}){0,9}',
  longest: 40,
  default: 'A8 B4',
  say: 'letters with numbers',
  help: 'Threads.',
});
const firstNot0 = text({ ...sett, pattern: '[1-9][0-9]{0,3}', default: '24' });
const words = text({ ...sett, pattern: '(plain|turned)( and (plain|turned))?', default: 'plain' });

it('has texts of 0 and of 9 alone, at the shortest length and at longer ones', () => {
  const texts = extremeTexts(sett);
  const ofDigit = (digit: string) =>
    texts.filter((one) => one.replace(/\D/g, '').replaceAll(digit, '') === '').map(({ length }) => length);
  expect(texts).toContain('A0');
  expect(new Set(ofDigit('0')).size).toBeGreaterThanOrEqual(3);
  expect(new Set(ofDigit('9')).size).toBeGreaterThanOrEqual(3);
});

it('keeps to the pattern, to what it allows of each place, and to words', () => {
  const numbers = extremeTexts(firstNot0);
  expect(numbers).toEqual(expect.arrayContaining(['1', '9', '1000', '9999']));
  for (const parameter of [sett, firstNot0, words])
    for (const one of extremeTexts(parameter))
      expect(fitsPattern(one, parameter.pattern, parameter.longest), one).toBe(true);
});

it('begins with the shortest and ends with the longest, each once', () => {
  const texts = extremeTexts(sett);
  const lengths = texts.map(({ length }) => length);
  expect([lengths[0], lengths[lengths.length - 1]]).toEqual([Math.min(...lengths), Math.max(...lengths)]);
  expect(new Set(texts).size).toBe(texts.length);
});
