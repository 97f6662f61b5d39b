import { expect, it } from 'vitest';
import type { Ink, ShadeCard } from './card.ts';
import { isMisfit, measureMisfit } from './misfit.ts';

const card = (...colours: Ink['colour'][]): ShadeCard => ({
  name: 'test',
  inks: colours.map((colour, at) => ({
    ...{ name: `ink ${at}`, kind: at === 0 ? 'ground' : 'ink', colour },
    covers: true,
    note: '',
  })),
});
const PALE: Ink['colour'] = [243, 234, 216];
const LEAF: Ink['colour'] = [47, 111, 79];
const frame = {
  ...{ width: 200, height: 200 },
  pixels: Uint8Array.from({ length: 160_000 }, (_, k) =>
    k % 4 === 3 ? 255 : (k >> 2) % 3 === 0 ? LEAF[k % 4] : PALE[k % 4],
  ),
};

it('a card explains its own picture, and not that of another', () => {
  const own = measureMisfit(frame, card(PALE, LEAF));
  expect(own.p95).toBeLessThan(0.5);
  expect(isMisfit(own)).toBe(false);
  const other = measureMisfit(frame, card([20, 20, 60], [200, 20, 20]));
  expect(other.mean).toBeGreaterThan(10);
  expect(isMisfit(other)).toBe(true);
});
it('a picture of nothing is no misfit', () => {
  const nothing = { width: 2, height: 1, pixels: new Uint8Array(8) };
  expect(measureMisfit(nothing, card(PALE))).toEqual({ mean: 0, p95: 0 });
});
