import { expect, it } from 'vitest';
import { openBandPace } from './band-pace.ts';

it('goes by the fastest band, from the second on, and a short last one does not fool it', () => {
  const pace = openBandPace(100);
  expect(pace.left(0, 30, 1000)).toBe(0);
  expect(pace.left(0, 30, 1300)).toBe(400);
  expect(pace.left(0, 30, 1330)).toBe(10);
  expect(pace.left(0, 10, 1400)).toBe(0);
});

it('does not take two threads that paint by turns for one that is fast', () => {
  const pace = openBandPace(100);
  for (const who of [0, 1]) expect(pace.left(who, 10, 1000 + 5 * who)).toBe(0);
  expect(pace.left(0, 10, 1100)).toBe(700);
  expect(pace.left(1, 10, 1105)).toBe(600);
});

it('learns nothing from words that came all at once', () => {
  const pace = openBandPace(100);
  pace.left(0, 10, 1000);
  expect(pace.left(0, 10, 1000.2)).toBe(0);
  expect(pace.left(0, 10, 1100.2)).toBe(700);
});
