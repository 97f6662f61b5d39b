import { describe, expect, it } from 'vitest';
import { nearer } from '../../../collection/page/cloth-view.ts';
import { viewBetween } from './glide.ts';

describe('a view between two', () => {
  it('leaves the point that was zoomed at where it is', () => {
    const from = { left: 12, top: -30, scale: 2 };
    const to = nearer(from, 3.4, { x: 500, y: 200 });
    for (const share of [0, 0.2, 0.5, 0.9, 1]) {
      const { left, top, scale } = viewBetween(from, to, share);
      expect(left + 500 / scale).toBeCloseTo(12 + 250, 9);
      expect(top + 200 / scale).toBeCloseTo(-30 + 100, 9);
    }
  });
  it('begins and ends where it should, with or without a change of scale', () => {
    const from = { left: 1, top: 2, scale: 3 };
    for (const to of [
      { left: 40, top: -2, scale: 3 },
      { left: 40, top: -2, scale: 0.3 },
    ]) {
      expect(viewBetween(from, to, 0)).toEqual(from);
      const end = viewBetween(from, to, 1);
      expect([end.left, end.top, end.scale]).toEqual([
        expect.closeTo(to.left, 9),
        expect.closeTo(to.top, 9),
        expect.closeTo(to.scale, 9),
      ]);
    }
  });
});
