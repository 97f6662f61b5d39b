import { expect, it } from 'vitest';
import { HINTS } from '../effect/hints.ts';
import { hintsFor } from './hints.ts';

const shown = (grade: string, warnings: string[] = [], strange = 0) =>
  hintsFor({ seams: { grade }, warnings, ranges: [[{ strange }]] } as unknown as Parameters<
    typeof hintsFor
  >[0]);

it('says of what does not close, and of numbers that are none, what prove says', () => {
  expect(shown('open')).toEqual([HINTS.notClosed]);
  expect(shown('closes', [], 3)).toEqual([HINTS.notFinite]);
  expect(shown('look')).toEqual([]);
});

it('blames no effect for a tile that does not close', () => {
  expect(shown('open', ['the tile itself does not close: a step'])).toEqual([]);
});
