import { expect, it } from 'vitest';
import { openBandPace } from './band-pace.ts';

it('goes by the fastest band, from the second on, and a short last one does not fool it', () => {
  const pace = openBandPace(100);
  expect(pace.left(30, 1000)).toBe(0);
  expect(pace.left(30, 1300)).toBe(400);
  expect(pace.left(30, 1330)).toBe(10);
  expect(pace.left(10, 1400)).toBe(0);
});
