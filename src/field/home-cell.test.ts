import { expect, it } from 'vitest';
import { homeCell } from './home-cell.ts';

it('takes a place just before the far edge for the last cell, whose quotient rounds onto the count', () => {
  // The double before this width, over cells of a 306th of it.
  const [width, place] = [195.89869545087976, 195.89869545087973];
  expect(place).toBeLessThan(width);
  expect(Math.floor(place / (width / 306))).toBe(306);
  expect(homeCell(place, width / 306, 306)).toBe(305);
  expect(homeCell(0, width / 306, 306)).toBe(0);
  expect(homeCell(width / 2, width / 306, 306)).toBe(153);
});
