import { describe, expect, it } from 'vitest';
import { AFAR, recentred, sizeWords, viewOfWhole } from './views.ts';

describe('views of the cloth', () => {
  it('shows one and a half repeats, of a reflected tile those of its box', () => {
    const room = { width: 1200, height: 600 };
    expect(viewOfWhole({ width: 100, height: 100, layout: 'drop:1/2' }, room).scale).toBe(4);
    expect(viewOfWhole({ width: 100, height: 100, layout: 'mirror-xy' }, room).scale).toBe(2);
    expect(viewOfWhole({ width: 300, height: 50, layout: 'straight' }, room).scale).toBeCloseTo(8 / 3);
    expect(viewOfWhole({ width: 100, height: 100, layout: 'straight' }, { width: 0, height: 0 }).scale).toBe(
      1 / 150,
    );
  });
  it('keeps what stood in the middle of a window that is resized', () => {
    const after = recentred(
      { left: 10, top: 20, scale: 2 },
      { width: 400, height: 300 },
      { width: 800, height: 200 },
    );
    expect(after).toEqual({ left: 10 + 100 - 200, top: 20 + 75 - 50, scale: 2 });
  });
  it('says how large the cloth is shown', () => {
    const fitted = { scale: 4, isFitted: true };
    expect([4, 4.01, 1, 3.2, 0.1, 0.8, 10, 60].map((scale) => sizeWords(scale, fitted))).toEqual([
      '1:1 true size',
      '1:1 true size',
      '1/4 of true size',
      '1/1.3 of true size',
      '1/40 of true size',
      '1/5 of true size',
      '2.5 × true size',
      '15 × true size',
    ]);
    expect(sizeWords(2, { scale: 4, isFitted: false })).toBe('about 1/2 of true size');
  });
  it('is a fifth from three metres: as large to the eye as on a screen at 0.6 m', () => {
    expect(2 * Math.atan(500 / 3000)).toBeCloseTo(2 * Math.atan((500 * AFAR) / 600), 12);
    expect(AFAR).toBeCloseTo(1 / 5, 12);
  });
});
