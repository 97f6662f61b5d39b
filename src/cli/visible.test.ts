import fc from 'fast-check';
import { expect, it } from 'vitest';
import { printVisibly, visible } from './visible.ts';

it('writes out what a terminal would obey', () => {
  expect(visible('a\u001b[2Jb\rc\u0007\u009b1m\u007f\u202ed')).toBe(
    'a\\u001b[2Jb\\u000dc\\u0007\\u009b1m\\u007f\\u202ed',
  );
});

it('leaves lines, tabs and letters of all scripts alone', () => {
  const text = 'Küche\n\t布 ماسة 🧵';
  expect(visible(text)).toBe(text);
});

it('leaves the meaning of JSON alone', () => {
  fc.assert(
    fc.property(fc.json(), (text) => {
      expect(JSON.parse(visible(JSON.stringify(JSON.parse(text))))).toEqual(JSON.parse(text));
    }),
  );
});

it('is what a console prints afterwards', () => {
  const printed: unknown[][] = [];
  const print = (...parts: unknown[]) => void printed.push(parts);
  const target = { log: print, error: print, warn: print };
  printVisibly(target);
  target.log('\u001b[31m');
  target.error('\u001b]0;x\u0007', 3);
  expect(printed).toEqual([['\\u001b[31m'], ['\\u001b]0;x\\u0007', 3]]);
});
