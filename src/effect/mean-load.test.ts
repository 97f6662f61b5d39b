import { expect, it } from 'vitest';
import { parseLayout } from '../repeat/layout.ts';
import { boxOf } from '../repeat/repeat.ts';
import type { Band } from './effect.ts';
import { meanLoad } from './mean-load.ts';

const boxFor = (width: number, height: number) => boxOf({ layout: parseLayout('straight'), width, height });

it('is 1 where nothing is painted', () => {
  expect(meanLoad(boxFor(30, 20), () => {})).toBe(1);
});

it('is the integral over the box: of what changes along both sides, too', () => {
  const [width, height] = [30, 20];
  const mean = meanLoad(boxFor(width, height), (band, { load }) => {
    for (let j = 0; j < band.height; j++) {
      for (let i = 0; i < band.width; i++) {
        const u = ((i + 0.5) * band.mmPerPixelX) / width;
        const v = ((j + 0.5) * band.mmPerPixelY) / height;
        load[j * band.width + i] = u * u + v;
      }
    }
  });
  // The integral of u^2 + v over the unit square: 1/3 + 1/2.
  expect(mean).toBeCloseTo(5 / 6, 3);
});

it.each<[number, number, number, number]>([
  [10, 4, 20, 8],
  [1000, 0.2, 220, 1],
])('looks at a box of %d x %d mm in %d x %d pixels that fill it', (width, height, columns, rows) => {
  const seen: Band[] = [];
  meanLoad(boxFor(width, height), (band) => seen.push(band));
  const [band] = seen;
  expect([band.x, band.y, band.width, band.height]).toEqual([0, 0, columns, rows]);
  expect(band.width * band.mmPerPixelX).toBeCloseTo(width, 9);
  expect(band.height * band.mmPerPixelY).toBeCloseTo(height, 9);
});
